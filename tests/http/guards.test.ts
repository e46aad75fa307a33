import { request } from 'node:http';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { errorOf, type Running, startService } from './harness.ts';

let service: Running;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

/** Asks with any Host header, which fetch does not allow. */
const asking = (url: string, host: string): Promise<number> =>
  new Promise((resolve, reject) => {
    const { port } = new URL(url);
    const sent = request(
      { host: '127.0.0.1', port, path: '/api/settings', headers: { host } },
      (response) => {
        response.resume();
        resolve(response.statusCode!);
      },
    );
    sent.on('error', reject);
    sent.end();
  });

describe('a name that is asked for', () => {
  it.each([
    ['127.0.0.1:8080', 200],
    ['localhost', 200],
    ['LOCALHOST:8080', 200],
    ['[::1]:8080', 200],
    ['evil.example', 421],
    ['evil.example:8080', 421],
    ['127.0.0.1.evil.example', 421],
    ['localhost.evil.example', 421],
    ['192.168.1.7', 421],
  ])('on loopback: %s is answered %i', async (host, status) => {
    expect(await asking(service.url, host)).toBe(status);
  });

  it.each([
    ['192.168.1.7:8080', 200],
    ['lawn.fernbeck.example', 200],
    ['evil.example', 421],
  ])('on the club’s network: %s is answered %i', async (host, status) => {
    const open = await startService({ host: '0.0.0.0', names: ['lawn.fernbeck.example'] });
    expect(await asking(open.url, host)).toBe(status);
    await open.close();
  });
});

describe('a change', () => {
  const put = (headers: Record<string, string>) =>
    service.send('/api/settings', {}, { method: 'PUT', headers });

  it.each([
    ['without an origin', {}, 200],
    ['from another site', { origin: 'http://evil.example' }, 403],
    ['from another port of this machine', { origin: 'http://127.0.0.1:1' }, 403],
    ['from a page without origin', { origin: 'null' }, 403],
    ['that the browser marks as cross-site', { 'sec-fetch-site': 'cross-site' }, 403],
  ])('%s', async (_, headers, status) => {
    expect((await put(headers as Record<string, string>)).status).toBe(status);
  });

  it('from the page itself', async () => {
    expect((await put({ origin: service.url })).status).toBe(200);
  });

  it('in the form that needs no permission from the browser is no JSON', async () => {
    const response = await service.ask('/api/settings', {
      method: 'PUT',
      body: '{}',
      headers: { 'content-type': 'text/plain' },
    });
    expect(response.status).toBe(422);
  });
});

it('answers with headers that keep other sites’ scripts and frames out', async () => {
  const { headers } = await service.ask('/api/settings');
  const policy = headers.get('content-security-policy')!.split(';');
  for (const directive of [
    "default-src 'self'",
    "script-src 'self'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' blob: data:",
    "object-src 'none'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ])
    expect(policy).toContain(directive);
  expect(policy.join()).not.toContain('upgrade-insecure-requests');
  expect(headers.get('x-content-type-options')).toBe('nosniff');
  expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
  expect(headers.get('x-powered-by')).toBeNull();
  expect(headers.get('access-control-allow-origin')).toBeNull();
});

it('sends an address away that asks too often', async () => {
  const limited = await startService({ limits: { ...service.deps.limits, requestsPerMinute: 2 } });
  const statuses = [];
  for (let turn = 0; turn < 3; turn += 1) statuses.push((await limited.ask('/api/spots')).status);
  expect(statuses).toEqual([200, 200, 429]);
  const refused = await limited.ask('/api/spots');
  expect((await errorOf(refused)).code).toBe('too-many-requests');
  expect(Number(refused.headers.get('retry-after'))).toBeGreaterThan(0);
  await limited.close();
});
