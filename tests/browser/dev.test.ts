import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { complaintsOf, openBrowser, visit } from './support/open-browser.ts';
import { type RunningService, runService } from './support/run-service.ts';

const WEB = resolve(import.meta.dirname, '..', '..', 'web');
/** What is no module of the page: what is built, what is copied as it is, the build's own settings, types alone. */
const LEFT_OUT = /^(dist|public)\/|^vite\.config\.ts$|\.d\.ts$/;

const modules = readdirSync(WEB, { recursive: true, encoding: 'utf8' })
  .map((path) => path.split('\\').join('/'))
  .filter((path) => /\.tsx?$/.test(path) && !LEFT_OUT.test(path));

describe('the page from its sources', () => {
  let browser: Browser;
  let service: RunningService;
  beforeAll(async () => {
    [browser, service] = await Promise.all([openBrowser(), runService({ SWARD_DEV: '1' })]);
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  test('answers every module with a script, none with an answer of the interface', async () => {
    const wrong: string[] = [];
    for (const path of modules) {
      const response = await fetch(`${service.address}/${path}`);
      const type = response.headers.get('content-type') ?? 'nothing';
      await response.arrayBuffer();
      if (!response.ok || !/javascript/.test(type)) wrong.push(`${path}: ${response.status}, ${type}`);
    }
    expect(modules).toContain(join('service', 'request.ts'));
    expect(wrong).toEqual([]);
  });

  test('shows the start and a list without a complaint', async () => {
    const context = await visit(browser);
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    await page.goto(service.address);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.goto(`${service.address}/readings`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
