import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';

/** A file of the project: its path from the root with forward slashes, and its text. */
export type Source = { readonly path: string; readonly text: string };

/** Folders that hold no source of this project. */
const SKIPPED = new Set(['node_modules', 'dist', '.git', '.cache', 'data', 'coverage', 'screens']);

const walk = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return SKIPPED.has(entry.name) ? [] : walk(path);
    return [path];
  });

const CODE = /\.(ts|tsx|mjs)$/;

/** Every source file of the project under `root`. */
export const readSources = (root: string): Source[] =>
  ['server', 'web', 'tests', 'fixtures']
    .flatMap((top) => walk(join(root, top)))
    .filter((path) => CODE.test(path))
    .map((path) => ({ path: relative(root, path).replaceAll('\\', '/'), text: readFileSync(path, 'utf8') }));

/** What a file imports: the words between the quotes of its import and export declarations and of `import()`. */
export const importsOf = ({ text }: Source): string[] => {
  const declared = /^[ \t]*(?:import|export)\b[^'"();]*?\bfrom\s*['"]([^'"]+)['"]/gm;
  const bare = /^[ \t]*import\s*['"]([^'"]+)['"]/gm;
  const called = /\bimport\(\s*['"]([^'"]+)['"]\s*\)/g;
  return [declared, bare, called].flatMap((pattern) => [...text.matchAll(pattern)].map((match) => match[1]!));
};
