import type { Combination } from '../../contract/combine.ts';
import { metres } from '../../units/numbers.ts';
import { sayCall, sayLine, sayWarnings } from './say-calls.ts';
import { sayPlace } from './say-reading.ts';

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** Several pictures read together, in words that can be read aloud: the call when there is one, else where the balls lie. */
export const sayCombination = ({
  pictures,
  certainty,
  balls,
  missing,
  call,
  warnings,
}: Combination): string[] => [
  `From ${listed(pictures.map(({ name }) => name))} together.`,
  ...(call
    ? [
        sayLine({ ...call.line, at: metres(call.line.at) }, call.hoopScored),
        ...call.balls.map((ball) => sayCall(ball, certainty)),
      ]
    : balls.map(sayPlace)),
  ...(missing.length > 0 ? [`Not found: ${missing.join(', ')}.`] : []),
  ...sayWarnings(warnings),
];
