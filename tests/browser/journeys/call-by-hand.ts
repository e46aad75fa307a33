import { expect, test } from 'vitest';
import type { Bench } from '../support/bench.ts';
import { complaintsOf, type SizeName, visit } from '../support/open-browser.ts';
import { choosePhoto, photoFile, READING, sampleCall, toMarks } from '../support/walk.ts';

/** A photo chosen, hoop said, pins checked, read, balls seen, call made: at both sizes. The truth of d1-terrace: yellow lies 300 mm past. */
export const callByHand = (bench: () => Bench): void => {
  test.each<SizeName>(['phone', 'desktop'])(
    'goes through all four steps at %s size',
    async (size) => {
      const { browser, service } = bench();
      const context = await visit(browser, { size });
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      await choosePhoto(page, service.address, photoFile('d1-terrace.jpg'));
      await page.getByRole('radio', { name: 'Hoop 1', exact: true }).check();
      await toMarks(page);
      await page.getByText('where the white lines seem to meet').waitFor({ timeout: READING });
      await page.getByRole('button', { name: 'Pull all four to the lines' }).click();
      await page.getByText(/^Pulled /).waitFor({ timeout: READING });
      await page.getByRole('button', { name: 'Read this photo' }).click();
      await page.waitForURL(/\/balls\//, { timeout: READING });
      await page.locator('[data-ball=yellow]').waitFor();
      await page.getByRole('link', { name: 'Make the call' }).click();
      await page.waitForURL(/\/call\//);
      await page.getByRole('button', { name: /Yellow: all of it is past the line/ }).waitFor();
      await page.getByRole('img', { name: /from the side/ }).waitFor();
      await page.getByRole('img', { name: /Plan of the lawn/ }).waitFor();
      await page.getByText('Rules: 6th edition, 2022').waitFor();
      expect(complaints).toEqual([]);
      await context.close();
    },
    2 * READING,
  );

  test(
    'is one tap away on a fresh installation with the sample lawn',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser);
      const page = await context.newPage();
      await sampleCall(page, service.address);
      await page.getByRole('heading', { level: 1, name: /past the line/ }).waitFor();
      await context.close();
    },
    READING,
  );
};
