import { randomBytes } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Bench } from '../support/bench.ts';
import { visit } from '../support/open-browser.ts';
import { choosePhoto, photoFile, READING, toMarks } from '../support/walk.ts';

const labelOf = (page: Page, pin: string): Promise<string | null> =>
  page.locator(`[data-pin=${pin}]`).getAttribute('aria-label');

const countReadings = async (address: string): Promise<number> =>
  ((await (await fetch(`${address}/api/readings?limit=100`)).json()) as { readings: unknown[] }).readings
    .length;

/** Each mishap ends in a clear sentence with nothing lost. */
export const keepsWork = (bench: () => Bench): void => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sward-mishaps-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test(
    'keeps pins over reload, back and forward, and shows them in a second tab',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser, { size: 'desktop' });
      const page = await context.newPage();
      await choosePhoto(page, service.address, photoFile('d1-terrace.jpg'));
      await toMarks(page);
      await page.getByText('where the white lines seem to meet').waitFor({ timeout: READING });
      await page.locator('[data-pin=corner2]').focus();
      await page.keyboard.press('Shift+ArrowRight');
      await expect.poll(() => page.getByRole('button', { name: 'Undo' }).isEnabled()).toBe(true);
      const moved = await labelOf(page, 'corner2');
      await page.reload();
      await expect.poll(() => labelOf(page, 'corner2')).toBe(moved);
      await page.goBack();
      await page.waitForURL(/\/photo\//);
      await page.goForward();
      await expect.poll(() => labelOf(page, 'corner2')).toBe(moved);
      const second = await context.newPage();
      await second.goto(page.url());
      await expect.poll(() => labelOf(second, 'corner2')).toBe(moved);
      await second.locator('[data-pin=corner2]').focus();
      await second.keyboard.press('Shift+ArrowDown');
      await expect.poll(() => labelOf(page, 'corner2')).not.toBe(moved);
      const last = await labelOf(second, 'corner2');
      await expect.poll(() => labelOf(page, 'corner2')).toBe(last);
      await context.close();
    },
    READING,
  );

  test(
    'waits for a server that stops in the middle, and reads once when it is back',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser);
      const page = await context.newPage();
      await choosePhoto(page, service.address, photoFile('d1-terrace.jpg'));
      await page.getByRole('radio', { name: 'Hoop 1', exact: true }).check();
      await toMarks(page);
      await page.getByText('where the white lines seem to meet').waitFor({ timeout: READING });
      const before = await countReadings(service.address);
      const asked = page.waitForRequest(/\/api\/readings$/);
      await page.getByRole('button', { name: 'Read this photo' }).click();
      await asked;
      await service.kill();
      await page.getByText("The club's machine does not answer.").first().waitFor();
      await service.start();
      await page.waitForURL(/\/balls\//, { timeout: READING });
      expect(await countReadings(service.address)).toBe(before + 1);
      await context.close();
    },
    3 * READING,
  );

  test(
    'opens without network, keeps photo and pins, and sends them once when it is back',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser, { shell: true });
      const page = await context.newPage();
      await page.goto(service.address);
      await page.evaluate(async () => void (await navigator.serviceWorker.ready));
      await context.setOffline(true);
      await page.goto(`${service.address}/settings`);
      await choosePhoto(page, service.address, photoFile('d1-terrace.jpg'));
      await toMarks(page);
      await page.locator('[data-pin=corner1]').focus();
      await page.keyboard.press('Shift+ArrowLeft');
      const moved = await labelOf(page, 'corner1');
      await page.reload();
      await expect.poll(() => labelOf(page, 'corner1')).toBe(moved);
      await page.getByRole('button', { name: 'Read this photo' }).click();
      await page.getByText("The club's machine does not answer.").first().waitFor();
      await context.setOffline(false);
      // Pins set blindly do not fit any lawn: the answer is a refusal in words, and the pins stay.
      await page.getByRole('alert').or(page.locator('[data-ball]')).first().waitFor({ timeout: READING });
      await context.close();
    },
    2 * READING,
  );

  test(
    'refuses a file of more than 60 MB in a sentence that names its size',
    async () => {
      const { browser, service } = bench();
      const file = join(folder, 'large.jpg');
      await writeFile(file, randomBytes(61_000_000));
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(service.address);
      await page.locator('input[data-photo-file]').first().setInputFiles(file);
      await page.getByText('This file has 61 MB; up to 60 MB can be read.').waitFor();
      await context.close();
    },
    READING,
  );

  test(
    'says what is wrong with a file that is no picture, and takes another',
    async () => {
      const { browser, service } = bench();
      const file = join(folder, 'notes.jpg');
      await writeFile(file, 'These are the minutes of the committee.');
      const context = await visit(browser);
      const page = await context.newPage();
      await choosePhoto(page, service.address, file);
      await page.getByRole('alert').waitFor({ timeout: READING });
      expect((await page.getByRole('alert').textContent())!.length).toBeGreaterThan(30);
      await page.getByRole('button', { name: 'Take another picture' }).waitFor();
      await context.close();
    },
    READING,
  );

  test(
    'says so when a photo shows no lawn, and keeps the pins',
    async () => {
      const { browser, service } = bench();
      const file = join(folder, 'wall.jpg');
      await sharp({ create: { width: 1600, height: 1200, channels: 3, background: '#8a7f72' } })
        .jpeg()
        .toFile(file);
      const context = await visit(browser);
      const page = await context.newPage();
      await choosePhoto(page, service.address, file);
      await toMarks(page);
      await page.getByRole('button', { name: 'Read this photo' }).click();
      const answer = page.getByRole('alert').or(page.getByText(/No ball was found/));
      await answer.first().waitFor({ timeout: READING });
      await context.close();
    },
    READING,
  );
};
