import type { OffsideAnswer, WrongBallAnswer } from '../../rules/judge.ts';
import { named, sayLine } from './say-calls.ts';

const VERDICTS: Readonly<Record<OffsideAnswer['balls'][number]['verdict'], string>> = {
  onside: 'onside',
  offside: 'offside',
  excused: 'past the line but not offside',
  tooClose: 'too close to call',
  historyNeeded: 'past the line; how it got there decides',
};

const sayBall = ({ colour, verdict, reason, rule }: OffsideAnswer['balls'][number]): string =>
  `${named(colour)}: ${VERDICTS[verdict]}. ${reason} (${rule})`;

const sayOffside = ({ line, balls }: OffsideAnswer): string[] => [
  sayLine(line, undefined),
  ...balls.map(sayBall),
];

const sayWrongBall = ({ explanation, rule, next }: WrongBallAnswer): string[] => [
  `${explanation} (${rule})`,
  `Next to play: ${next.balls.join(' or ')}.`,
];

/** The rules' answer in words that can be read aloud. */
export const sayJudgement = (answer: OffsideAnswer | WrongBallAnswer): string[] =>
  'line' in answer ? sayOffside(answer) : sayWrongBall(answer);
