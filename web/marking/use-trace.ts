import { useCallback, useState } from 'react';
import type { Trace } from '../../server/contract/photo.ts';
import { shortPointName } from '../../server/contract/words/places.ts';
import type { CornerName } from '../../server/lawn/named-points.ts';
import { type Draft, marksOf, type Pins } from '../draft/draft.ts';
import { traceLines } from '../service/photos.ts';
import { sentenceOf } from '../service/request.ts';
import { currentSettings } from '../settings/use-settings.ts';
import { listed } from '../words/balls.ts';

/** Below this share of a side the line counts as not followed, and is named. */
const HARDLY = 0.2;

const unfollowed = (trace: Trace): string => {
  const sides = Object.entries(trace.sides).filter(([, { share }]) => share < HARDLY);
  if (sides.length === 0) return '';
  return ` The ${listed(sides.map(([side]) => side))} line could hardly be followed.`;
};

const saying = (trace: Trace, wanted: readonly CornerName[], pulled: readonly CornerName[]): string => {
  if (pulled.length === 0)
    return `No crossing of two lines was found near ${listed(wanted.map(shortPointName))}. Move the pin nearer to the corner, or leave it as it is.${unfollowed(trace)}`;
  return `Pulled ${listed(pulled.map(shortPointName))} to the lines; the dots show what was followed.${unfollowed(trace)}`;
};

/** Pulling corners to the crossing of the traced lines: what was traced, what came of it, and the pull itself. */
export const useTrace = (draft: Draft, onPins: (pins: Pins) => void) => {
  const [trace, setTrace] = useState<Trace | null>(null);
  const [message, setMessage] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const pull = useCallback(
    async (corners: readonly CornerName[]) => {
      if (!draft.photoId) return;
      setBusy(true);
      setMessage(null);
      try {
        const found = await traceLines(draft.photoId, marksOf(draft, currentSettings()));
        const pulled = corners.filter((corner) => found.corners[corner]);
        setTrace(found);
        setMessage(saying(found, corners, pulled));
        if (pulled.length > 0)
          onPins({
            ...draft.pins,
            ...Object.fromEntries(pulled.map((corner) => [corner, found.corners[corner]!])),
          });
      } catch (error) {
        setMessage(sentenceOf(error));
      } finally {
        setBusy(false);
      }
    },
    [draft, onPins],
  );
  return { trace, message, busy, pull };
};
