import { answerFromPhoto } from '../answer-from-photo.ts';
import type { Command } from '../command.ts';
import { saySighting } from '../say/say-sighting.ts';

const usage = 'sight PHOTO --marks FILE [--json]';

/** Judges the balls from a photo along the halfway line. */
export const command: Command = {
  usage,
  summary: 'the call from a picture along the halfway line',
  run: (words, output) => answerFromPhoto('sight', usage, words, output, saySighting),
};
