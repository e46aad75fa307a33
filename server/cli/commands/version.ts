import { readFile } from 'node:fs/promises';
import type { Command } from '../command.ts';

/** Tells the version. */
export const command: Command = {
  usage: 'version',
  summary: 'the version of this program',
  run: async (_, output) => {
    const text = await readFile(new URL('../../../package.json', import.meta.url), 'utf8');
    output((JSON.parse(text) as { version: string }).version);
  },
};
