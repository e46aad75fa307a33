import { useEffect, useRef } from 'react';
import type { Spot } from '../../server/contract/spot.ts';
import type { PointName } from '../../server/lawn/named-points.ts';
import type { Draft, Pins, PinsFrom } from '../draft/draft.ts';
import { updateDraft } from '../draft/draft-store.ts';
import { listSpots } from '../service/club.ts';
import { guessPoints } from '../service/photos.ts';
import { firstPoints, pinsFromNowhere } from './needed-points.ts';

/** A spot's last pins on a photo of the same shape, scaled to its size; null for another shape. */
export const pinsOfSpot = (spot: Spot, size: { width: number; height: number }): Pins | null => {
  if (!spot.marks || !spot.photo) return null;
  const scale = size.width / spot.photo.width;
  if (Math.abs(spot.photo.height * scale - size.height) > 2) return null;
  return Object.fromEntries(
    Object.entries(spot.marks.points).map(([name, [x, y]]) => [name, [x * scale, y * scale]]),
  ) as Pins;
};

/** Sets pins that nobody has touched yet; a hand's pins always stay. */
const setStart = (id: string, pins: Pins, pinsFrom: PinsFrom) =>
  updateDraft(id, (now) => {
    const untouched = now.past.length === 0 && (now.pinsFrom !== null || Object.keys(now.pins).length === 0);
    return untouched ? { ...now, pins, pinsFrom } : now;
  });

const fromSpot = async ({ spot, size }: Draft): Promise<Pins | null> => {
  if (!spot || !size) return null;
  const spots = await listSpots().catch(() => []);
  const found = spots.find(({ id }) => id === spot);
  return found ? pinsOfSpot(found, size) : null;
};

const only = (
  points: Record<string, readonly [number, number]>,
  names: readonly PointName[],
): Pins | null => {
  const kept = Object.entries(points).filter(([name]) => names.includes(name as PointName));
  return kept.length > 0 ? (Object.fromEntries(kept) as Pins) : null;
};

/** Puts the first pins of a draft: where the spot's last picture had them, else where the white lines suggest, else anywhere. */
export const useStartPins = (draft: Draft): void => {
  const { id, size, photoId, kind, hoopScored, spot } = draft;
  const asked = useRef('');
  const untouched =
    draft.past.length === 0 && (draft.pinsFrom !== null || Object.keys(draft.pins).length === 0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the rest of the draft does not decide where pins start
  useEffect(() => {
    const names = firstPoints(kind, hoopScored);
    const question = `${id} ${photoId} ${spot} ${names.join()}`;
    if (!size || !untouched || asked.current === question) return;
    asked.current = question;
    const start = async () => {
      if (draft.pinsFrom === null) await setStart(id, pinsFromNowhere(names, size), 'nowhere');
      const last = await fromSpot(draft);
      if (last) {
        await setStart(id, last, 'spot');
        if (kind === 'lawn') return;
      }
      if (!photoId || kind === 'sighting') return;
      const guess = await guessPoints(photoId, spot).catch(() => null);
      const points = guess?.points && only(guess.points, kind === 'lawn' ? [...names, 'peg'] : names);
      if (points) await setStart(id, points, 'lines');
    };
    start();
  }, [id, size, photoId, spot, kind, hoopScored, untouched]);
};
