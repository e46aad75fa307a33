import { answerFromPhoto } from '../answer-from-photo.ts';
import type { Command } from '../command.ts';
import { sayReading } from '../say/say-reading.ts';

const usage = 'read PHOTO --marks FILE [--json]';

/** Reads where every ball lies from a photo of the whole lawn. */
export const command: Command = {
  usage,
  summary: 'where every ball lies, and which are past the halfway line',
  run: (words, output) => answerFromPhoto('read', usage, words, output, sayReading),
};
