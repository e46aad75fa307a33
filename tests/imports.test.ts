import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { borderBreaches, impureBreaches, undeclaredBreaches } from './imports/borders.ts';
import { badNames, barePaths, forbiddenWords, longFiles } from './imports/habits.ts';
import { importsOf, readSources, type Source } from './imports/sources.ts';

const root = new URL('..', import.meta.url).pathname;
const sources = readSources(root);
const read = (name: string): string => readFileSync(join(root, name), 'utf8');
const { dependencies, devDependencies } = JSON.parse(read('package.json')) as Record<
  'dependencies' | 'devDependencies',
  Record<string, string>
>;

describe('the house', () => {
  it('has every border kept', () => {
    expect(borderBreaches(sources)).toEqual([]);
  });
  it('has pure rooms without clock, chance and outside world', () => {
    expect(impureBreaches(sources)).toEqual([]);
  });
  it('imports declared packages alone, and what runs in production none of the tools for tests', () => {
    const production = sources.filter(({ path }) => path.startsWith('server/') || path.startsWith('web/'));
    expect(undeclaredBreaches(production, Object.keys(dependencies))).toEqual([]);
    expect(undeclaredBreaches(sources, Object.keys({ ...dependencies, ...devDependencies }))).toEqual([]);
  });
  it('pins every package exactly', () => {
    const versions = Object.entries({ ...dependencies, ...devDependencies });
    expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+(-\d+)?$/.test(version))).toEqual([]);
  });
  it('has a lock file without download addresses', () => {
    expect(read('package-lock.json')).not.toMatch(/"resolved"|https?:\/\/[^"]*\.tgz/);
  });
  it('has the top level that was agreed on', () => {
    const ignored = read('.gitignore')
      .split('\n')
      .map((line) => line.replaceAll('/', ''));
    const shown = readdirSync(root).filter((name) => !name.startsWith('.') && !ignored.includes(name));
    expect(shown.filter((name) => !/\.(log|tmp)$/.test(name)).sort()).toEqual([
      'DEVELOPERS.md',
      'LICENSE',
      'README.md',
      'fixtures',
      'package-lock.json',
      'package.json',
      'server',
      'tests',
      'tsconfig.json',
      'web',
    ]);
  });
});

describe('sources', () => {
  it('are at most 300 lines long', () => {
    expect(longFiles(sources)).toEqual([]);
  });
  it('bear names that say what they hold, in kebab case', () => {
    expect(badNames(sources)).toEqual([]);
  });
  it('hold no reminders, no tests left out and no paths of one machine', () => {
    expect(forbiddenWords(sources)).toEqual([]);
  });
  it('name the ending of each file they import', () => {
    expect(barePaths(sources)).toEqual([]);
  });
});

// Each gate is shown to fail: a small tree with one fault, and the breach that must be found.
describe('a breach is found', () => {
  const file = (path: string, text: string): Source => ({ path, text });
  const OK = [
    file('server/units/numbers.ts', 'export const one = 1;\n'),
    file('server/lawn/court.ts', "import { one } from '../units/numbers.ts';\nexport { one };\n"),
    file('server/photo/decode.ts', "import sharp from 'sharp';\n"),
    file(
      'web/plan/plan.tsx',
      "import { court } from '../../server/lawn/court.ts';\nimport { Box } from '@mantine/core';\n",
    ),
    file('server/start.ts', "import { openStore } from './store/store.ts';\n"),
  ];

  it('in none of a sound tree', () => {
    expect([...borderBreaches(OK), ...impureBreaches(OK), ...forbiddenWords(OK), ...badNames(OK)]).toEqual(
      [],
    );
  });

  it.each<[string, string, string, RegExp]>([
    [
      'a room above',
      'server/units/numbers.ts',
      "import { c } from '../lawn/court.ts';",
      /units imports server\/lawn\/court.ts/,
    ],
    [
      'vision in rules',
      'server/rules/offside.ts',
      "import type { Raster } from '../vision/types.ts';",
      /rules imports server\/vision/,
    ],
    [
      'rules in vision',
      'server/vision/trace.ts',
      "import { halfway } from '../rules/halfway.ts';",
      /vision imports server\/rules/,
    ],
    [
      'a type over several lines',
      'server/lawn/a.ts',
      "import type {\n  A,\n  B,\n} from '../camera/types.ts';",
      /lawn imports server\/camera/,
    ],
    [
      'an export from',
      'server/units/a.ts',
      "export { b } from '../lawn/b.ts';",
      /units imports server\/lawn/,
    ],
    [
      'a call of import',
      'server/lawn/a.ts',
      "const b = () => import('../store/b.ts');",
      /lawn imports server\/store/,
    ],
    [
      'Node in a pure room',
      'server/camera/solve.ts',
      "import { readFileSync } from 'node:fs';",
      /camera imports the package node/,
    ],
    [
      'the decoder elsewhere',
      'server/reading/read.ts',
      "import sharp from 'sharp';",
      /reading imports the package sharp/,
    ],
    [
      'opencv beside its adapter',
      'server/vision/warp.ts',
      "import opencv from 'opencv-wasm';",
      /opencv-wasm beside its adapter/,
    ],
    [
      'SQL elsewhere',
      'server/http/route.ts',
      "import { Kysely } from 'kysely';",
      /http imports the package kysely/,
    ],
    [
      'the schema library elsewhere',
      'server/games/log.ts',
      "import { z } from 'zod';",
      /games imports the package zod/,
    ],
    [
      'the store in the page',
      'web/list.tsx',
      "import { rows } from '../server/store/store.ts';",
      /web imports server\/store/,
    ],
    [
      'a solver in the page',
      'web/list.tsx',
      "import { solve } from '../server/camera/solve-camera.ts';",
      /web imports server\/camera/,
    ],
    [
      'tests in the server',
      'server/lawn/a.ts',
      "import { b } from '../../tests/b.ts';",
      /lawn imports tests\/b.ts/,
    ],
    ['an unknown room', 'server/services/a.ts', '', /no room services/],
  ])('across a border: %s', (_, path, text, expected) => {
    const breaches = borderBreaches([...OK.filter((source) => source.path !== path), file(path, text)]);
    expect(breaches[0]).toMatch(expected);
  });

  it.each(['Math.random()', 'Date.now()', 'new Date()', 'process.env', 'console.log(1)'])(
    'in a pure room: %s',
    (text) => {
      expect(impureBreaches([file('server/rules/a.ts', `export const a = ${text};`)])).toHaveLength(1);
      expect(impureBreaches([file('server/store/a.ts', `export const a = ${text};`)])).toEqual([]);
    },
  );

  it('in an undeclared package', () => {
    const source = file(
      'server/a/b.ts',
      "import x from 'left/over';\nimport fs from 'node:fs';\nimport y from '@a/b/c';",
    );
    expect(undeclaredBreaches([source], ['@a/b'])).toEqual([
      'server/a/b.ts: the package left is not declared',
    ]);
  });

  it('in a file of more than 300 lines', () => {
    expect(longFiles([file('server/a.ts', 'x\n'.repeat(300))])).toEqual([]);
    expect(longFiles([file('server/a.ts', 'x\n'.repeat(301))])).toEqual(['server/a.ts: 301 lines']);
  });

  it.each([
    'server/a/readLawn.ts',
    'server/a/Read.ts',
    'server/utils/a.ts',
    'server/a/misc.ts',
    'tests/test-helpers.ts',
  ])('in the name %s', (path) => {
    expect(badNames([file(path, '')])).toHaveLength(1);
  });

  it.each([
    `// ${'TO'}${'DO'}: later`,
    `it.${'only'}('a', b);`,
    `const a = '/${'work'}/a';`,
    `// @ts-${'ignore'}`,
  ])('in the words of a source: %s', (text) => {
    expect(forbiddenWords([file('server/a.ts', text)])).toHaveLength(1);
  });

  it('in an import without an ending', () => {
    const text =
      "import a from './a';\nimport './b.css';\nimport c from './c.svg?raw';\nimport d from './d.test.ts';";
    expect(barePaths([file('server/x.ts', text)])).toEqual(['server/x.ts: imports "./a" without its ending']);
  });

  it('by reading imports in each of their forms', () => {
    const text =
      "import 'a';\nimport b from 'b';\nimport {\n  c,\n} from 'c';\nexport * from 'd';\nconst e = await import('node:e');\n// from 'f'";
    expect(importsOf(file('x.ts', text)).sort()).toEqual(['a', 'b', 'c', 'd', 'node:e']);
  });
});
