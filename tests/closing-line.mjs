// Prints the closing line of a test run: how many tests passed, failed and were skipped, read from vitest's own summary.
import { readFileSync } from 'node:fs';

const colours = new RegExp(`${String.fromCharCode(27)}\\[[0-9;]*m`, 'g');
const plain = readFileSync(process.argv[2], 'utf8').replaceAll(colours, '');
const summary = [...plain.matchAll(/^\s*Tests\s+(.*)$/gm)].at(-1)?.[1] ?? '';
const count = (word) => Number(summary.match(new RegExp(`(\\d+) ${word}`))?.[1] ?? 0);
const skipped = count('skipped');
console.log(
  `${count('passed')} passed, ${count('failed')} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`,
);
