import type { BallCall } from '../../server/contract/reading.ts';
import type { UnitSystem } from '../../server/contract/settings.ts';
import { chance, giveOrTake } from '../../server/contract/words/chances.ts';
import { margin, wholeMillimetres } from '../../server/contract/words/lengths.ts';
import { BALL_DIAMETER } from '../../server/lawn/ball.ts';

/** A ball's call in words: the part that decides, the margin in figures, and how sure. */
export type SaidCall = { readonly decides: string; readonly figures: string; readonly chance: string };

/** "give or take 12 mm": after a margin in mm in mm alone, else in the club's units. */
const plusMinus = (beyond: number, sd: number, units: UnitSystem): string => {
  const half = giveOrTake(sd);
  const plain = Math.abs(beyond) < 0.9995 && half < 0.9995;
  return `give or take ${plain ? `${wholeMillimetres(half)} mm` : margin(half, units)}`;
};

/** Many times its own doubt from the line, and still undecided: then it is not the place that is unsure but which ball this is. */
const FAR = 4;
const isUnsureBall = ({ lies, beyond, sd }: BallCall): boolean =>
  lies === 'tooClose' && Math.abs(beyond) > FAR * sd;

const decides = (call: BallCall): string => {
  const { lies, beyond } = call;
  if (lies === 'beyond') return 'All of it is past the line';
  if (isUnsureBall(call)) return 'Not called, for it is not certain that this is that ball';
  if (lies === 'tooClose') return 'Too close to call from this picture';
  return beyond <= -BALL_DIAMETER
    ? 'None of it is past the line'
    : 'Part of it may be past the line, not all of it';
};

const figures = (call: BallCall, units: UnitSystem): string => {
  const { lies, beyond, sd } = call;
  const about = plusMinus(beyond, sd, units);
  if (lies === 'beyond') return `by ${margin(beyond, units)}, ${about}`;
  if (lies === 'tooClose')
    return beyond >= 0
      ? `it seems all across by ${margin(beyond, units)}, ${about}`
      : `it seems ${margin(beyond, units)} short of all across, ${about}`;
  return `it is ${margin(beyond, units)} short of all across, ${about}`;
};

/** What is said of one ball. */
export const sayCall = (call: BallCall, units: UnitSystem): SaidCall => ({
  decides: decides(call),
  figures: figures(call, units),
  chance: `All of it across: ${chance(call.probability)}`,
});

/** The calls in the order in which people care: nearest the line first, from either side. */
export const byCloseness = (calls: readonly BallCall[]): BallCall[] =>
  calls.toSorted((a, b) => Math.abs(a.beyond) - Math.abs(b.beyond));
