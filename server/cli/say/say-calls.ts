import type { BallCall, Warning } from '../../contract/reading.ts';
import { chance, giveOrTake } from '../../contract/words/chances.ts';
import { margin, wholeMillimetres } from '../../contract/words/lengths.ts';
import { towards } from '../../contract/words/places.ts';
import type { HalfwayLine } from '../../lawn/halfway-lines.ts';

/** "Red" for `red`. */
export const named = (word: string): string => word[0]!.toUpperCase() + word.slice(1);

/** "34 mm, give or take 12" or "2.51 m, give or take 118 mm": the band that covers 19 readings in 20. */
const measured = ({ beyond, sd }: BallCall): string => {
  const long = margin(beyond, 'metric');
  const band = wholeMillimetres(giveOrTake(sd));
  return `${long}, give or take ${band}${long.endsWith('mm') ? '' : ' mm'}`;
};

const sideOf = ({ beyond }: BallCall): string => (beyond >= 0 ? 'past the line by' : 'short of the line by');

const sayUndecided = (call: BallCall): string => {
  const settle = call.settle?.[0] ? ` ${call.settle[0].message}` : '';
  return `too close to call from this picture: ${sideOf(call)} ${measured(call)}; ${chance(call.probability)} that all of it is past.${settle}`;
};

/** The place would do for a call, but the ball may be another one, or too little of it is seen: then nothing is called. */
const isUnsure = ({ lies, probability }: BallCall, certainty: number): boolean =>
  lies === 'tooClose' && (probability >= certainty || probability <= 1 - certainty);

/** The call on one ball in a sentence or two; `certainty` is that above which calls are firm. */
export const sayCall = (call: BallCall, certainty: number): string => {
  const ball = named(call.colour);
  if (isUnsure(call, certainty)) {
    return `${ball}: no call, since it is not sure that this is the ${call.colour} ball; what was found lies ${sideOf(call)} ${measured(call)}.`;
  }
  switch (call.lies) {
    case 'beyond':
      return `${ball}: all of it is past the line, by ${measured(call)}.`;
    case 'short':
      return `${ball}: not past the line, short of it by ${measured(call)}.`;
    case 'tooClose':
      return `${ball}: ${sayUndecided(call)}`;
  }
};

/** The halfway line in a sentence. `line.at` in metres. */
export const sayLine = (line: HalfwayLine, scored: number | undefined): string => {
  const axis = line.axis === 'y' ? 'north of the south boundary' : 'east of the west boundary';
  const after = scored === undefined ? 'The line' : `After hoop ${scored} the line`;
  return `${after} is ${line.at.toFixed(2)} m ${axis}; the next hoop lies to the ${towards(line)}.`;
};

/** Cautions, one a line. */
export const sayWarnings = (warnings: readonly Warning[]): string[] =>
  warnings.map(({ message }) => `Caution: ${message}`);
