import { answerFromPhoto } from '../answer-from-photo.ts';
import type { Command } from '../command.ts';
import { sayCheck } from '../say/say-check.ts';

const usage = 'check PHOTO --marks FILE [--json]';

/** Checks where markers, hoops and peg stand. */
export const command: Command = {
  usage,
  summary: 'whether markers, hoops and peg stand where they should',
  run: (words, output) => answerFromPhoto('check', usage, words, output, sayCheck),
};
