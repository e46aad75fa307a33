import { expect, test } from 'vitest';
import type { Bench } from '../support/bench.ts';
import { complaintsOf, type SizeName, visit } from '../support/open-browser.ts';
import { readFixture } from '../support/read-fixture.ts';
import { choosePhoto, photoFile, READING } from '../support/walk.ts';

/** The pages about the line and the court at both sizes. */
export const courtAndLine = (bench: () => Bench): void => {
  test(
    'asks for both ends of the line on a picture along it',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser);
      const page = await context.newPage();
      await choosePhoto(page, `${service.address}/court`, photoFile('d7-sighting.jpg'));
      await page.getByRole('radio', { name: 'Hoop 1', exact: true }).check();
      await page.getByRole('button', { name: 'Pin the ends of the line' }).click();
      await page.locator('[data-pin=markerW]').waitFor();
      await page.locator('[data-pin=markerE]').waitFor();
      await context.close();
    },
    READING,
  );

  test.each<SizeName>(['phone', 'desktop'])(
    'shows the answers along the line and of the court check at %s size',
    async (size) => {
      const { browser, service } = bench();
      const context = await visit(browser, { size });
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      const sighting = await readFixture(service.address, 'd7-sighting', 'sighting');
      await page.goto(`${service.address}/court/sighting/${sighting}`);
      await page
        .getByRole('img', { name: /from the side/ })
        .first()
        .waitFor({ timeout: READING });
      const check = await readFixture(service.address, 'd4-mast', 'check');
      await page.goto(`${service.address}/court/check/${check}`);
      await page.getByRole('img', { name: /court/ }).first().waitFor({ timeout: READING });
      const marks = page.getByRole('listitem').filter({ hasText: /^Marker|marker/ });
      await expect.poll(() => marks.count()).toBeGreaterThanOrEqual(8);
      expect(complaints).toEqual([]);
      await context.close();
    },
    2 * READING,
  );

  test(
    'shows where to stand',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(`${service.address}/court/stand`);
      await page.getByRole('figure').first().waitFor({ timeout: READING });
      expect(await page.getByRole('heading', { level: 1 }).count()).toBe(1);
      await context.close();
    },
    READING,
  );
};
