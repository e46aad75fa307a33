import { useCallback, useEffect, useRef, useState } from 'react';
import type { LawnRecord, SightingRecord } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { ImagePoint } from '../../server/units/points.ts';
import { useCorrections } from '../reading/use-reading.ts';
import { ballName } from '../words/balls.ts';

/** Arrow keys are sent together after this long without another, ms. */
const PAUSE = 500;

const pair = ({ x, y }: ImagePoint): [number, number] => [x, y];

/**
 * The balls of a reading in the hand: the chosen one, the one being moved, the one that waits for a tap, and what can be done. `adding` waits for a tap from the
 * start.
 */
export const useBalls = (record: LawnRecord | SightingRecord, adding: BallColour | null) => {
  const corrections = useCorrections(record);
  const [chosen, choose] = useState<BallColour | null>(null);
  const [placing, setPlacing] = useState(adding);
  const [held, setHeld] = useState<{ colour: BallColour; at: ImagePoint } | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);

  const drop = useCallback(
    async (colour: BallColour, at: ImagePoint) => {
      setHeld({ colour, at });
      await corrections.correct({ balls: [{ colour, image: pair(at) }] });
      setHeld((now) => (now?.at === at ? null : now));
    },
    [corrections],
  );
  const nudge = (colour: BallColour, at: ImagePoint) => {
    setHeld({ colour, at });
    clearTimeout(timer.current);
    timer.current = setTimeout(() => drop(colour, at), PAUSE);
  };
  const add = async (colour: BallColour, at: ImagePoint) => {
    setPlacing(null);
    await corrections.correct({ balls: [{ colour, place: pair(at) }] });
    choose(colour);
  };
  const recolour = async (from: BallColour, to: BallColour) => {
    if (from === to) return;
    const taken = record.balls.some(({ colour }) => colour === to);
    await corrections.correct({
      balls: [{ colour: from, recolour: to }, ...(taken ? [{ colour: to, recolour: from }] : [])],
    });
    choose(to);
  };
  const remove = async (colour: BallColour) => {
    choose(null);
    await corrections.correct({ balls: [{ colour, remove: true }] });
  };
  const alone = async ({ colour, image }: { colour: BallColour; image: readonly [number, number] }) => {
    choose(null);
    await corrections.correct({ tap: [image[0], image[1]], inPlay: [colour] });
  };
  const move = (colour: BallColour, at: ImagePoint) => setHeld({ colour, at });
  return {
    ...corrections,
    chosen,
    choose,
    placing,
    setPlacing,
    held,
    move,
    nudge,
    drop,
    add,
    recolour,
    remove,
    /** Judges this ball of a sighting alone. */
    alone,
    name: ballName,
  };
};

/** What `useBalls` gives. */
export type Balls = ReturnType<typeof useBalls>;
