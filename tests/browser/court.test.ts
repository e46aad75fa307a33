import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { atRest } from './support/at-rest.ts';
import { complaintsOf, openBrowser, type SizeName, visit } from './support/open-browser.ts';
import { readFixture } from './support/read-fixture.ts';
import { type RunningService, runService } from './support/run-service.ts';
import { photoFile, READING, toMarks } from './support/walk.ts';

const BOTH: readonly SizeName[] = ['phone', 'desktop'];

describe('the pages of the line and the court', () => {
  let browser: Browser;
  let service: RunningService;
  beforeAll(async () => {
    [browser, service] = await Promise.all([openBrowser(), runService()]);
  }, 240_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  test.each(BOTH)(
    'reads a sample along the line and says where the phone was, at %s size',
    async (size) => {
      const context = await visit(browser, { size });
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      await page.goto(`${service.address}/court`);
      await page.getByRole('button', { name: 'Try it on a sample' }).click();
      await page.waitForURL(/\/court\/sighting\//, { timeout: READING });
      // Blue lies 14 mm past the line and yellow 8.07 m short of it (fixtures/photos/d7-sighting.truth.json).
      await page.getByRole('heading', { level: 1 }).filter({ hasText: 'Blue is past the line' }).waitFor();
      await page.getByRole('heading', { name: 'Where the phone was' }).waitFor();
      await page.getByText('All four are allowed for in the answer.').waitFor();
      for (const step of ['Photo', 'Marks', 'Balls'])
        await page.getByRole('link', { name: step, exact: true }).waitFor();
      expect(complaints).toEqual([]);
      await context.close();
    },
    2 * READING,
  );

  test.each(BOTH)(
    'checks a court against the tolerance that was asked for, at %s size',
    async (size) => {
      const context = await visit(browser, { size });
      const page = await context.newPage();
      await page.goto(`${service.address}/court`);
      await page.locator('input[data-photo-file]').last().setInputFiles(photoFile('d4-mast.jpg'));
      await page.waitForURL(/\/photo\//);
      const tolerance = page.getByLabel('Tolerance');
      await tolerance.fill('40');
      await tolerance.blur();
      await page.getByRole('button', { name: 'Add a taped distance' }).click();
      await page.getByRole('group', { name: 'A taped distance' }).waitFor();
      await toMarks(page);
      await page.getByText('The pins are where the white lines seem to meet').waitFor({ timeout: READING });
      await page.getByRole('button', { name: 'Read this photo' }).click();
      await page.waitForURL(/\/court\/check\//, { timeout: READING });
      await page.getByText('against a tolerance of 40 mm').waitFor();
      await context.close();
    },
    3 * READING,
  );

  test.each(BOTH)(
    'takes a ball that was tapped into a picture along the line, and judges it alone, at %s size',
    async (size) => {
      const id = await readFixture(service.address, 'd7-sighting', 'sighting');
      const context = await visit(browser, { size });
      const page = await context.newPage();
      await page.goto(`${service.address}/balls/${id}`);
      const yellow = page.locator('[data-ball=yellow]');
      await yellow.waitFor();
      await atRest(page);
      await yellow.click({ force: true });
      await page.getByRole('button', { name: /take it away/ }).click();
      await expect.poll(() => yellow.count()).toBe(0);
      await page.goto(`${service.address}/court/sighting/${id}`);
      await page.getByText(/^Not found: .*Yellow/).waitFor();
      await page.getByRole('link', { name: /in the photo$/ }).click();
      const add = page.getByRole('radio', { name: 'Yellow' });
      await add
        .or(page.getByRole('button', { name: 'Put it in the middle' }))
        .first()
        .waitFor();
      if (await add.isVisible()) await add.click();
      await page.getByRole('button', { name: 'Put it in the middle' }).click();
      await expect.poll(() => yellow.getAttribute('aria-label')).toBe('Yellow, placed by hand');
      await page.getByRole('button', { name: 'Judge this ball alone' }).click();
      await expect.poll(() => page.locator('[data-ball]').count()).toBe(1);
      await page.getByRole('link', { name: 'Make the call' }).click();
      await page.getByText('Only the ball that was tapped is judged.').waitFor();
      await page.getByText("Put there by hand, with a hand's doubt.").waitFor();
      await context.close();
    },
    2 * READING,
  );

  test(
    'shows in the photo what is off, and says that the check was kept and when',
    async () => {
      const id = await readFixture(service.address, 'd4-mast', 'check');
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(`${service.address}/court/check/${id}`);
      const photo = page.getByRole('group', { name: /^The photo with what is off/ });
      await photo.waitFor();
      await page.getByRole('button', { name: 'Show Marker on the west boundary in the photo' }).click();
      // The west marker stands 180 mm off (fixtures/photos/d4-mast.truth.json); what was chosen is told whether or not it is certain.
      await photo.getByText(/^1\d\d mm/).waitFor();
      await page.getByRole('button', { name: /^Keep as/ }).click();
      await page.getByText(/^Kept as the latest check of .*, of /).waitFor();
      await page.reload();
      await page.getByText(/^Kept as the latest check of .*, of /).waitFor();
      await context.close();
    },
    2 * READING,
  );

  test(
    'takes the line from a kept court check when asked to, and says so',
    async () => {
      const check = await readFixture(service.address, 'd4-mast', 'check');
      const sighting = await readFixture(service.address, 'd7-sighting', 'sighting');
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(`${service.address}/court/check/${check}`);
      await page.getByRole('button', { name: /^Keep as/ }).click();
      await page.getByText(/^Kept as the latest check/).waitFor();
      await page.goto(`${service.address}/again/${sighting}/photo`);
      const choice = page.getByRole('switch', { name: /^Use the court check of/ });
      await choice.waitFor();
      expect(await choice.isChecked()).toBe(false);
      await choice.click();
      await expect.poll(() => choice.isChecked()).toBe(true);
      await page.reload();
      await expect.poll(() => choice.isChecked()).toBe(true);
      await page.getByRole('button', { name: /^Pin the/ }).click();
      await page.getByRole('button', { name: 'Read this photo' }).click();
      await page.waitForURL(/\/court\/sighting\//, { timeout: READING });
      await page
        .getByText(/court check/)
        .first()
        .waitFor();
      await context.close();
    },
    3 * READING,
  );

  test(
    'tells the same of a court on its page and on its printed list',
    async () => {
      const id = await readFixture(service.address, 'd4-mast', 'check');
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(`${service.address}/court/check/${id}`);
      const list = await page
        .getByRole('link', { name: 'List to take out on the lawn' })
        .getAttribute('href');
      const printed = await fetch(`${service.address}${list}`);
      expect(printed.headers.get('content-type')).toContain('application/pdf');
      const rows = page.getByRole('listitem').filter({ hasText: /^(Marker|Hoop|Peg)/ });
      // Eight boundary marks, six hoops, the peg.
      await expect.poll(() => rows.count()).toBe(15);
      await page.getByRole('button', { name: /^Keep as/ }).click();
      await page.getByText(/^Kept as the latest check/).waitFor();
      await page.goto(`${service.address}/court`);
      await page.getByRole('link', { name: /was checked on/ }).waitFor();
      await context.close();
    },
    2 * READING,
  );

  test.each(BOTH)(
    'shows more settled ground from higher up, at %s size',
    async (size) => {
      const context = await visit(browser, { size });
      const page = await context.newPage();
      await page.goto(`${service.address}/court/stand`);
      const settled = page.locator('[data-settles=half] path').first();
      await settled.waitFor({ timeout: READING });
      const places = async () => ((await settled.getAttribute('d')) ?? '').split('M').length;
      const low = await places();
      await page.getByLabel('Height of the phone above the lawn').fill('15');
      await expect.poll(places, { timeout: READING }).toBeGreaterThan(low);
      // Low down only the ends of the line are left: for hoop 4 it runs from south to north.
      await page.getByLabel('Height of the phone above the lawn').fill('2');
      await page.getByLabel('Hoop 4', { exact: true }).check();
      await page.getByText('behind the south and north boundaries').waitFor({ timeout: READING });
      await context.close();
    },
    2 * READING,
  );

  test(
    'reads pictures together and names what contradicts',
    async () => {
      const lawn = await readFixture(service.address, 'd1-terrace', 'lawn');
      const sighting = await readFixture(service.address, 'd7-sighting', 'sighting');
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(`${service.address}/court/together?with=${sighting}`);
      await expect.poll(() => page.getByRole('checkbox', { checked: true }).count()).toBe(1);
      await page
        .locator('li', { has: page.locator(`img[src*="${lawn}"]`) })
        .getByRole('checkbox')
        .check();
      await page.getByRole('button', { name: 'Read these 2 together' }).click();
      // The two pictures show different positions (their truth files), so no ball may be called from both.
      await page.getByText('the pictures do not agree about it').first().waitFor({ timeout: READING });
      await context.close();
    },
    2 * READING,
  );
});
