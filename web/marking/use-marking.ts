import { useCallback, useState } from 'react';
import type { PointName } from '../../server/lawn/named-points.ts';
import type { ImagePoint } from '../../server/units/points.ts';
import type { Draft, Pins } from '../draft/draft.ts';
import { useMarksOf } from '../draft/use-draft.ts';

/** A pin in hand: where it is while the finger has not let go. */
type Held = { readonly name: PointName; readonly at: ImagePoint };

const pair = ({ x, y }: ImagePoint): readonly [number, number] => [
  Math.round(x * 100) / 100,
  Math.round(y * 100) / 100,
];

/** The pins of a draft as they are being moved: the chosen one, the one in hand, the one that waits for a tap on the photo. */
export const useMarking = (draft: Draft) => {
  const { change, undo, read } = useMarksOf(draft.id);
  const [chosen, choose] = useState<PointName | null>(null);
  const [held, setHeld] = useState<Held | null>(null);
  const [placing, setPlacing] = useState<PointName | null>(null);
  const setPins = useCallback((pins: Pins) => change({ pins }), [change]);
  const drop = useCallback(
    async (name: PointName, at: ImagePoint) => {
      // The pin stays in hand until the change is kept, so that it does not spring back for a frame.
      setHeld({ name, at });
      await change((now) => ({ pins: { ...now.pins, [name]: pair(at) } }));
      setHeld((now) => (now?.name === name && now.at === at ? null : now));
    },
    [change],
  );
  const remove = useCallback(
    (name: PointName) => {
      choose(null);
      change((now) => ({
        pins: Object.fromEntries(Object.entries(now.pins).filter(([other]) => other !== name)),
      }));
    },
    [change],
  );
  const place = useCallback(
    (at: ImagePoint) => {
      if (!placing) return;
      drop(placing, at);
      choose(placing);
      setPlacing(null);
    },
    [placing, drop],
  );
  const move = useCallback((name: PointName, at: ImagePoint) => setHeld({ name, at }), []);
  return { chosen, choose, held, move, drop, remove, placing, setPlacing, place, setPins, undo, read };
};

/** What `useMarking` gives. */
export type Marking = ReturnType<typeof useMarking>;
