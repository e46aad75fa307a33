import type { MeasuredEnd } from '../camera/solve-sighting.ts';
import type { MarkedPoint } from '../camera/types.ts';
import type { CheckedPlace } from '../contract/checked-places.ts';
import type { Marks } from '../contract/marks.ts';
import type { Warning } from '../contract/reading.ts';
import type { Sighting } from '../contract/sight.ts';
import { giveOrTake } from '../contract/words/chances.ts';

/** The two ends of the line as a kept court check found them. */
export type CheckedEnds = NonNullable<Sighting['checked']>;

/**
 * Where the court check that goes with the marks found the two ends; null when there is none, when it is switched off, or when it did not see both: the marks then
 * define the line.
 */
export const checkedEnds = (marks: Marks, ends: readonly MarkedPoint[]): CheckedEnds | null => {
  const { checked, useChecked } = marks;
  if (!checked || useChecked === false) return null;
  const found = ends.map(({ name }) => checked.markers.find((marker) => `marker${marker.name}` === name));
  if (found.some((marker) => marker === undefined)) return null;
  return { at: checked.at, ends: found as CheckedPlace[] };
};

/**
 * Both ends were measured with one camera, whose errors they share. For a line that is as far off at both ends, errors that are taken for independent would average out: each
 * counts this much wider.
 */
const SHARED = Math.SQRT2;

/** The measured places as the camera's solution takes them. */
export const measuredEnds = (checked: CheckedEnds | null): MeasuredEnd[] =>
  (checked?.ends ?? []).map(({ name, along, sd }) => ({ name: `marker${name}`, along, sd: SHARED * sd }));

const aside = ({ name, along, sd }: CheckedPlace): string => {
  const upright = name === 'W' || name === 'E';
  const way = upright ? (along < 0 ? 'south' : 'north') : along < 0 ? 'west' : 'east';
  const mm = (metres: number) => Math.round(Math.abs(metres) * 1000);
  return `${name} ${mm(along)} mm to the ${way} (give or take ${mm(giveOrTake(sd))})`;
};

/** Says that the ends stand where a check found them, or that its check did not see both. */
export const checkedNotes = (marks: Marks, checked: CheckedEnds | null): Warning[] => {
  if (checked)
    return [
      {
        code: 'checked-places',
        message: `The line is where it belongs, not between the two markers: the court check of ${checked.at.slice(0, 10)} found ${checked.ends.map(aside).join(' and ')} of their proper places.`,
      },
    ];
  if (!marks.checked || marks.useChecked === false) return [];
  return [
    {
      code: 'checked-places-missing',
      message: `The court check of ${marks.checked.at.slice(0, 10)} did not see both ends of this line, so the line is taken from marker to marker. Check the court again for them.`,
    },
  ];
};
