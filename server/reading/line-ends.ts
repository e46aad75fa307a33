import type { Marks } from '../contract/marks.ts';
import { InputError } from '../errors.ts';
import type { HalfwayLine, ScoredPoint } from '../lawn/halfway-lines.ts';
import type { MarkerName } from '../lawn/named-points.ts';

/** Yards from the west boundary of the lines that run south–north, by the point scored. */
const LINE_YARDS: Readonly<Partial<Record<ScoredPoint, '10.5' | '14' | '17.5'>>> = {
  2: '14',
  4: '17.5',
  6: '10.5',
  8: '14',
  10: '17.5',
  12: '17.5',
};

/** The markers at the two ends of the halfway line after point `scored`: west and east, or south and north. */
export const lineEnds = (line: HalfwayLine, scored: ScoredPoint): readonly [MarkerName, MarkerName] => {
  const yards = LINE_YARDS[scored];
  if (line.axis === 'y' || yards === undefined) return ['markerW', 'markerE'];
  return [`markerS${yards}`, `markerN${yards}`];
};

/** The point scored, or an `InputError` when there is no halfway line to sight along. */
export const scoredPoint = ({ hoopScored }: Marks): ScoredPoint => {
  if (hoopScored === undefined)
    throw new InputError(
      'hoop-needed',
      'Found no hoopScored in the marks; a sighting picture needs the hoop that was just scored, 1 to 12. Add it and try again.',
    );
  if (hoopScored === 13)
    throw new InputError(
      'game-over',
      'The marks say that hoop 13 was scored, after which the game is over and no halfway line is left to sight along; give the hoop that was just scored, 1 to 12.',
    );
  return hoopScored as ScoredPoint;
};
