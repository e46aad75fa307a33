import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { terrace } from './pictures.ts';
import { PROJECT, ready, startIn, stop } from './started-service.ts';

let data: string;
beforeAll(() => {
  data = mkdtempSync(join(tmpdir(), 'sward-'));
});
afterAll(() => rmSync(data, { recursive: true, force: true }));
const start = (environment: Record<string, string>) => startIn(data, environment);

describe('the service as it is started', () => {
  it('builds the page when it must, serves it and reads a photo; what it kept is there after a restart', async () => {
    const first = start({});
    const url = await ready(first);
    const page = await fetch(`${url}/readings/anything`);
    expect(page.headers.get('content-type')).toContain('text/html');
    const html = await page.text();
    const script = /src="(\/assets\/[^"]+\.js)"/.exec(html)![1]!;
    const asset = await fetch(url + script);
    expect(asset.headers.get('cache-control')).toContain('immutable');
    expect((await fetch(`${url}/assets/missing.js`)).status).toBe(404);
    expect((await fetch(`${url}/index.html`)).headers.get('cache-control')).toBe('no-cache');

    const form = new FormData();
    form.set('photo', new Blob([Uint8Array.from(terrace())]));
    form.set('marks', readFileSync(join(PROJECT, 'fixtures/photos/d1-terrace.marks.json'), 'utf8'));
    const response = await fetch(`${url}/api/readings`, { method: 'POST', body: form });
    expect(response.status).toBe(201);
    const record = (await response.json()) as { id: string; balls: unknown[] };
    expect(record.balls.length).toBeGreaterThan(0);
    expect(await stop(first)).toBe(0);

    const second = start({});
    const again = await ready(second);
    expect(await (await fetch(`${again}/api/readings/${record.id}`)).json()).toEqual(record);
    expect((await fetch(`${again}/api/readings/${record.id}/photo`)).status).toBe(200);
    expect(await stop(second, 'SIGINT')).toBe(0);
    expect(first.said().trim().split('\n').at(-1)).toMatch(/^Sward is ready: http:\/\/localhost:\d+$/);
    expect(second.complained()).toBe('');
  }, 240_000);

  it('says in one sentence that the port is in use', async () => {
    const taken = createServer();
    await new Promise<void>((resolve) => taken.listen(0, '127.0.0.1', resolve));
    const { port } = taken.address() as { port: number };
    const started = start({ SWARD_PORT: String(port) });
    const [code] = await once(started.child, 'exit');
    expect(code).toBe(1);
    expect(started.complained().trim()).toBe(
      `Port ${port} on 127.0.0.1 is in use already, perhaps by another Sward; stop that one, or set SWARD_PORT to another port.`,
    );
    taken.close();
  }, 240_000);

  it('names every bad variable at once', async () => {
    const started = start({ SWARD_PORT: 'eighty', SWARD_DEV: 'yes' });
    const [code] = await once(started.child, 'exit');
    expect(code).toBe(1);
    expect(started.complained().trim()).toBe(
      'The environment cannot be used: SWARD_PORT is "eighty" but must be a whole number from 0 to 65535; SWARD_DEV is "yes" but must be 0 or 1.',
    );
  });
});
