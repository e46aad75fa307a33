import type { Breach } from './borders.ts';
import { importsOf, type Source } from './sources.ts';

/** Longest source file, in lines. */
const MOST_LINES = 300;

const linesOf = (text: string): number => text.split('\n').length - (text.endsWith('\n') ? 1 : 0);

/** Files over the size budget. */
export const longFiles = (sources: readonly Source[]): Breach[] =>
  sources
    .filter(({ text }) => linesOf(text) > MOST_LINES)
    .map(({ path, text }) => `${path}: ${linesOf(text)} lines`);

const KEBAB = /^[a-z0-9]+([.-][a-z0-9]+)*\.(ts|tsx|mjs)$/;
/** Names that say nothing of what a file holds. */
const EMPTY_NAMES = ['utils', 'util', 'helpers', 'helper', 'misc', 'common', 'manager'];

/** Files whose names are not in kebab case or say nothing. */
export const badNames = (sources: readonly Source[]): Breach[] =>
  sources.flatMap(({ path }) => {
    const parts = path.split('/');
    const name = parts.at(-1)!;
    const words = path.split(/[/.-]/);
    const empty = words.find((word) => EMPTY_NAMES.includes(word));
    return [
      ...(KEBAB.test(name) ? [] : [`${path}: not in kebab case`]),
      ...(empty ? [`${path}: "${empty}" says nothing`] : []),
    ];
  });

// Put together from halves, so that this file does not hold what it forbids.
const word = (...halves: string[]): RegExp => new RegExp(`\\b${halves.join('')}\\b`);
const FORBIDDEN: readonly RegExp[] = [
  word('TO', 'DO'),
  word('FIX', 'ME'),
  word('HA', 'CK'),
  /\b(?:it|test|describe)\.(?:only|todo|skip)\b/,
  /\bdebugger\b/,
  /(?:^|['"\s])\/(?:work|home|root|Users)\//m,
  /\bregistry\.[a-z]+\.[a-z]+/,
  /\bts-(?:ignore|nocheck)\b/,
];

/** Words that no source holds: reminders, tests left out, paths of one machine, hosts of registries, silenced types. */
export const forbiddenWords = (sources: readonly Source[]): Breach[] =>
  sources.flatMap(({ path, text }) =>
    FORBIDDEN.flatMap((pattern) => {
      const found = pattern.exec(text)?.[0];
      return found ? [`${path}: holds "${found.trim()}"`] : [];
    }),
  );

/** Relative imports that do not name the file's ending. */
export const barePaths = (sources: readonly Source[]): Breach[] =>
  sources.flatMap((source) =>
    importsOf(source)
      .filter((specifier) => specifier.startsWith('.') && !/\.[a-z0-9]+(?:\?[a-z]+)?$/.test(specifier))
      .map((specifier) => `${source.path}: imports "${specifier}" without its ending`),
  );
