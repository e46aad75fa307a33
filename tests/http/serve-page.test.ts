import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer, request, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import express from 'express';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { servePage } from '../../server/http/page/serve-page.ts';

const SCRIPT = `export const words = ${JSON.stringify('lawn '.repeat(2000))};`;

describe('the built page', () => {
  let folder = '';
  let server: Server;
  const get = (path: string, accept: string): Promise<Response> =>
    fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}${path}`, {
      headers: { 'Accept-Encoding': accept },
    });

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sward-page-'));
    await mkdir(join(folder, 'assets'));
    await writeFile(join(folder, 'index.html'), '<!doctype html><title>Lawn</title>');
    await writeFile(join(folder, 'assets', 'main-1a2b.js'), SCRIPT);
    server = createServer(express().use(servePage(folder)));
    await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
  });
  afterAll(async () => {
    server.closeAllConnections();
    await new Promise((done) => void server.close(done));
    await rm(folder, { recursive: true });
  });

  it('sends a script compressed to a browser that takes it, and whole to one that does not', async () => {
    const bytes = await new Promise<{ encoding: string | undefined; body: Buffer }>((done, failed) => {
      const { port } = server.address() as AddressInfo;
      const asked = request(
        { port, host: '127.0.0.1', path: '/assets/main-1a2b.js', headers: { 'Accept-Encoding': 'gzip' } },
        (response) => {
          const parts: Buffer[] = [];
          response.on('data', (part: Buffer) => void parts.push(part));
          response.on('end', () =>
            done({ encoding: response.headers['content-encoding'], body: Buffer.concat(parts) }),
          );
        },
      );
      asked.on('error', failed);
      asked.end();
    });
    expect(bytes.encoding).toBe('gzip');
    expect(bytes.body.length).toBeLessThan(SCRIPT.length / 10);
    expect(gunzipSync(bytes.body).toString()).toBe(SCRIPT);
    const plain = await get('/assets/main-1a2b.js', 'identity');
    expect(plain.headers.get('content-encoding')).toBeNull();
    expect(await plain.text()).toBe(SCRIPT);
  });

  it('keeps what bears a digest for good and asks again for the rest', async () => {
    expect((await get('/assets/main-1a2b.js', 'identity')).headers.get('cache-control')).toContain(
      'immutable',
    );
    expect((await get('/games/new', 'identity')).headers.get('cache-control')).toBe('no-cache');
  });
});
