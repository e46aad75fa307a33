import { randomUUID } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openDiskFiles } from '../../server/store/files/disk-files.ts';
import { openMemoryFiles } from '../../server/store/files/memory-files.ts';
import type { PhotoFiles } from '../../server/store/files/photo-files.ts';

const BYTES = Uint8Array.from([255, 216, 255, 0, 10, 13]);
const [EARLIER, LATER] = [new Date(Date.now() - 3_600_000), new Date(Date.now() + 3_600_000)];
const plain = (bytes: Uint8Array | null) => bytes && [...bytes];

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'sward-'));
});
afterEach(() => rmSync(root, { recursive: true }));

const KINDS: [string, () => Promise<PhotoFiles>][] = [
  ['on disk', () => openDiskFiles(join(root, 'photos'))],
  ['in memory', async () => openMemoryFiles()],
];

describe.each(KINDS)('photo files %s', (_, open) => {
  it('give back the bytes that were kept', async () => {
    const [files, id] = [await open(), randomUUID()];
    await files.keep(id, BYTES);
    expect(plain(await files.original(id))).toEqual([...BYTES]);
    expect(await files.original(randomUUID())).toBeNull();
  });

  it('are kept once', async () => {
    const [files, id] = [await open(), randomUUID()];
    await files.keep(id, BYTES);
    await expect(files.keep(id, Uint8Array.of(1))).rejects.toThrow();
    expect(plain(await files.original(id))).toEqual([...BYTES]);
  });

  it('make a derived picture once', async () => {
    const [files, id] = [await open(), randomUUID()];
    await files.keep(id, BYTES);
    let made = 0;
    const make = async (original: Uint8Array) => Uint8Array.of(original.length, ++made);
    expect(plain(await files.derived(id, 'thumbnail.jpg', make))).toEqual([6, 1]);
    expect(plain(await files.derived(id, 'thumbnail.jpg', make))).toEqual([6, 1]);
    expect(await files.derived(randomUUID(), 'thumbnail.jpg', make)).toBeNull();
    expect(made).toBe(1);
  });

  it('are gone, with all that was made from them, when removed', async () => {
    const [files, id] = [await open(), randomUUID()];
    await files.keep(id, BYTES);
    await files.derived(id, 'upright.jpg', async () => Uint8Array.of(1));
    await files.remove(id);
    await files.remove(id);
    expect(await files.original(id)).toBeNull();
    expect(await files.derived(id, 'upright.jpg', async () => Uint8Array.of(1))).toBeNull();
  });

  it('that nobody knows are swept away, the others stay', async () => {
    const [files, known, orphan] = [await open(), randomUUID(), randomUUID()];
    await files.keep(known, BYTES);
    await files.keep(orphan, BYTES);
    expect(await files.sweep(new Set([known]), EARLIER)).toBe(0);
    expect(await files.sweep(new Set([known]), LATER)).toBe(1);
    expect(plain(await files.original(known))).toEqual([...BYTES]);
    expect(await files.original(orphan)).toBeNull();
  });

  it('of another database are left alone', async () => {
    const [files, id] = [await open(), randomUUID()];
    await files.keep(id, BYTES);
    expect(await files.sweep(new Set(), LATER)).toBe(-1);
    expect(await files.sweep(new Set([randomUUID()]), LATER)).toBe(-1);
    expect(plain(await files.original(id))).toEqual([...BYTES]);
  });
});

describe('the folder of photos', () => {
  it('never leaves its root, whatever the id', async () => {
    const files = await openDiskFiles(join(root, 'photos'));
    for (const id of ['../outside', '..', '.', 'a/b', '', 'C:\\photo', `${randomUUID()}/..`])
      await expect(files.keep(id, BYTES)).rejects.toThrow(/Expected an id for photo/);
    expect(readdirSync(root)).toEqual(['photos']);
  });

  it('holds whole files only: what an interruption left unfinished is swept away', async () => {
    const [files, id] = [await openDiskFiles(join(root, 'photos')), randomUUID()];
    await files.keep(id, BYTES);
    writeFileSync(join(root, 'photos', id, 'x.unfinished'), 'half');
    mkdirSync(join(root, 'photos', randomUUID()));
    expect(await files.sweep(new Set([id]), LATER)).toBe(1);
    expect(readdirSync(join(root, 'photos'))).toEqual([id]);
    expect(readdirSync(join(root, 'photos', id))).toEqual(['original']);
  });
});
