import type { UnitSystem } from '../../server/contract/settings.ts';
import type { Contributions } from '../../server/contract/sight.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';
import { METRES_PER_YARD } from '../../server/units/numbers.ts';

/** What a sighting is corrected for, in the order in which it is told. */
export const ALLOWED_FOR = ['aside', 'height', 'roll', 'lens'] as const;
export type AllowedFor = (typeof ALLOWED_FOR)[number];

/** One thing that a sighting is corrected for, metres: how far off the ball would seem without (past the line positive), and what doubt it leaves. */
export type Allowance = {
  readonly of: AllowedFor;
  readonly shift: number;
  /** Half width of the band that covers 19 in 20. */
  readonly give: number;
};

/** The four allowances of one ball. */
export const allowancesOf = (contributions: Contributions): Allowance[] =>
  ALLOWED_FOR.map((of) => ({
    of,
    shift: contributions[of].shift,
    give: giveOrTake(contributions[of].sd),
  }));

/** Half the width of the scale is never less than this, metres, so that nothing looks large that is small. */
const LEAST_SCALE = 0.005;

/** What half the width of the bars stands for, metres: room for the largest with its doubt. */
export const scaleOf = (allowances: readonly Allowance[]): number =>
  Math.max(LEAST_SCALE, ...allowances.map(({ shift, give }) => Math.abs(shift) + give));

const LESS: Readonly<Record<AllowedFor, string>> = {
  aside:
    'Most of the doubt of these four comes from how far beside the line the phone was. Next time stand where the two marks lie one behind the other.',
  height:
    'Most of the doubt of these four comes from the height of the phone. A pin at the peg or a hoop tells it better; so does a picture from higher up.',
  roll: 'Most of the doubt of these four comes from the turn of the phone. Hold it level, and pin the peg or a hoop: their uprights tell how level it was.',
  lens: 'Most of the doubt of these four comes from the lens. Do not zoom, and pin hoops or corners away from the middle of the picture.',
};

/** A doubt that is a smaller share than this of the ball's whole doubt changes nothing, were it nothing: less than an eighth of it by squares. */
const MATTERS = 0.35;

/** Plain advice for the next picture; `sd` is the standard deviation of the whole answer, metres. */
export const adviceOf = (allowances: readonly Allowance[], sd: number): string => {
  const largest = allowances.reduce((most, one) => (one.give > most.give ? one : most));
  return largest.give < MATTERS * giveOrTake(sd)
    ? 'None of the four limits this answer: what doubt is left lies in the ball, the marks and the lawn.'
    : LESS[largest.of];
};

const mm = (metres: number): string => {
  const value = Math.abs(metres) * 1000;
  return value < 0.5 ? 'less than 1 mm' : `${Math.round(value)} mm`;
};

/** What an allowance does, in words: "Left out, it would seem 7 mm farther short; 2 mm of doubt is left". */
export const sayAllowance = ({ shift, give }: Pick<Allowance, 'shift' | 'give'>): string => {
  const left = `${mm(give)} of doubt is left`;
  if (Math.abs(shift) < 0.0005) return `Moves it by ${mm(shift)}; ${left}`;
  return `Left out, it would seem ${mm(shift)} ${shift > 0 ? 'farther past' : 'farther short'}; ${left}`;
};

const METRES_PER_INCH = METRES_PER_YARD / 36;

/** How high something is held, as people tell their own height: "5 ft 4 in" or "1.62 m". */
export const tallness = (height: number, units: UnitSystem): string => {
  if (units === 'metric') return `${height.toFixed(2)} m`;
  const inches = Math.round(height / METRES_PER_INCH);
  return `${Math.floor(inches / 12)} ft ${inches % 12} in`;
};
