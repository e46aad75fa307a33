import type { RecordKind } from '../../server/contract/record.ts';
import { STANDARD_COURT, STANDARD_YARDS } from '../../server/lawn/court.ts';
import { halfwayLine, type ScoredPoint } from '../../server/lawn/halfway-lines.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { CORNER_NAMES, type MarkerName, type PointName } from '../../server/lawn/named-points.ts';
import type { Draft, Pins } from '../draft/draft.ts';

/** The marks at both ends of the halfway line after `scored`; none when no line follows. */
export const lineEnds = (scored: HoopPoint | null): readonly MarkerName[] => {
  if (scored === null || scored === 13) return [];
  const { axis, at } = halfwayLine(STANDARD_COURT, scored as ScoredPoint);
  if (axis === 'y') return ['markerW', 'markerE'];
  const yard = Math.round((at / STANDARD_COURT.width) * STANDARD_YARDS.width * 2) / 2;
  return [`markerS${yard}`, `markerN${yard}`] as MarkerName[];
};

/** The points that a photo of this kind is first marked by. */
export const firstPoints = (kind: RecordKind, scored: HoopPoint | null): readonly PointName[] =>
  kind === 'sighting' ? lineEnds(scored) : CORNER_NAMES;

/** What is still missing before the photo can be read, in a sentence; null when nothing is. */
export const stillMissing = ({
  kind,
  hoopScored,
  pins,
}: Pick<Draft, 'kind' | 'hoopScored' | 'pins'>): string | null => {
  const count = Object.keys(pins).length;
  if (kind !== 'sighting') {
    if (count >= 4) return null;
    return `Pin ${4 - count} more: four corners, or other known points with no three in a line.`;
  }
  if (hoopScored === null || hoopScored === 13)
    return 'Say on the photo step which hoop was scored: that gives the line.';
  const missing = lineEnds(hoopScored).filter((name) => !pins[name]);
  return missing.length === 0 ? null : 'Pin both ends of the halfway line.';
};

/** Pins to begin with when nothing is known: a lawn as a terrace shows it, the line's ends one above the other. */
export const pinsFromNowhere = (
  names: readonly PointName[],
  size: { width: number; height: number },
): Pins => {
  const places: Partial<Record<PointName, readonly [number, number]>> = {
    corner1: [0.14, 0.72],
    corner2: [0.32, 0.42],
    corner3: [0.68, 0.42],
    corner4: [0.86, 0.72],
  };
  const near = [
    [0.5, 0.78],
    [0.5, 0.36],
  ] as const;
  return Object.fromEntries(
    names.map((name, i) => {
      const [x, y] = places[name] ?? near[i % 2]!;
      return [name, [x * size.width, y * size.height]];
    }),
  );
};
