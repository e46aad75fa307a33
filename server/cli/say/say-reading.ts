import type { Marks } from '../../contract/marks.ts';
import type { FoundBall, Reading } from '../../contract/reading.ts';
import { giveOrTake } from '../../contract/words/chances.ts';
import { wholeMillimetres } from '../../contract/words/lengths.ts';
import { metres } from '../../units/numbers.ts';
import { named, sayCall, sayLine, sayWarnings } from './say-calls.ts';

/** Where a ball lies, in a sentence. */
export const sayPlace = ({
  colour,
  x,
  y,
  sdX,
  sdY,
}: Pick<FoundBall, 'colour' | 'x' | 'y' | 'sdX' | 'sdY'>): string => {
  const [east, north] = [sdX, sdY].map((sd) => wholeMillimetres(giveOrTake(sd)));
  return `${named(colour)}: ${x.toFixed(2)} m east and ${y.toFixed(2)} m north of corner 1, give or take ${east} and ${north} mm.`;
};

/** A reading in words that can be read aloud: the call when there is one, else where the balls lie. */
export const sayReading = ({ balls, missing, call, warnings }: Reading, { certainty }: Marks): string[] => [
  ...(call
    ? [
        sayLine({ ...call.line, at: metres(call.line.at) }, call.hoopScored),
        ...call.balls.map((ball) => sayCall(ball, certainty)),
      ]
    : balls.map(sayPlace)),
  ...(missing.length > 0 ? [`Not found: ${missing.join(', ')}.`] : []),
  // What was not found is said once.
  ...sayWarnings(warnings.filter(({ code }) => code !== 'ball-not-found')),
];
