import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { namedPlace, type PointName } from '../../server/lawn/named-points.ts';
import type { CourtQuestion } from '../draft/draft.ts';

/** What a tape should read between two points of the standard court, metres, to the millimetre. */
export const trueDistance = (from: PointName, to: PointName): number => {
  const [a, b] = [namedPlace(STANDARD_COURT, from), namedPlace(STANDARD_COURT, to)];
  return Math.round(Math.hypot(a.x - b.x, a.y - b.y) * 1000) / 1000;
};

/** The distance that a tape is first offered for: between hoops 5 and 6, through the peg, for one tape reaches it. */
export const START_TAPE: NonNullable<CourtQuestion['taped']> = {
  from: 'hoop5',
  to: 'hoop6',
  distance: trueDistance('hoop5', 'hoop6'),
};
