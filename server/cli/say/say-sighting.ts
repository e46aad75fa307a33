import type { Marks } from '../../contract/marks.ts';
import type { Sighting } from '../../contract/sight.ts';
import { metres } from '../../units/numbers.ts';
import { sayCall, sayLine, sayWarnings } from './say-calls.ts';

/** The answer of a sighting picture in words that can be read aloud. */
export const saySighting = (
  { line, balls, warnings }: Sighting,
  { hoopScored, certainty }: Marks,
): string[] => [
  sayLine({ ...line, at: metres(line.at) }, hoopScored),
  ...(balls.length > 0 ? balls.map((ball) => sayCall(ball, certainty)) : ['No ball was found.']),
  ...sayWarnings(warnings),
];
