import { readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, test } from 'vitest';
import { pageBuilt } from './support/page-built.ts';

const PROJECT = resolve(import.meta.dirname, '..', '..');
const DIST = join(PROJECT, 'web', 'dist');

/** Most that the page may fetch of scripts before the parts that wait until they are asked for, bytes as sent. */
const MOST = 250_000;

/** Scripts that the page names itself: the one it begins with and those fetched beside it. */
const firstScripts = async (): Promise<string[]> => {
  const html = await readFile(join(DIST, 'index.html'), 'utf8');
  return [...html.matchAll(/(?:src|href)="(\/assets\/[^"]+\.js)"/g)].map(([, path]) => path!);
};

describe('the first load of the page', () => {
  beforeAll(() => pageBuilt(PROJECT));

  test('is at most 250 kB of scripts, as a server with compression sends them', async () => {
    const scripts = await firstScripts();
    const files = await Promise.all(scripts.map((path) => readFile(join(DIST, path))));
    const sizes = files.map((file) => gzipSync(file).length);
    const total = sizes.reduce((sum, size) => sum + size, 0);
    console.log(`First load: ${(total / 1000).toFixed(0)} kB of scripts, compressed.`);
    expect(scripts.length).toBeGreaterThan(0);
    expect(total).toBeLessThanOrEqual(MOST);
  });

  test('carries no aids for development', async () => {
    const files = await Promise.all((await firstScripts()).map((path) => readFile(join(DIST, path), 'utf8')));
    // The development build of React names the function with which it reports misuse.
    expect(files.filter((text) => text.includes('react-stack-bottom-frame'))).toEqual([]);
  });
});
