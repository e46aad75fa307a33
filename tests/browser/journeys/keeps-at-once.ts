import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Bench } from '../support/bench.ts';
import { visit } from '../support/open-browser.ts';
import { choosePhoto, photoFile, READING, toMarks } from '../support/walk.ts';

const ROUNDS = 10;
/** As slow as a phone of some years ago under another load. */
const SLOWER = 6;

const acrossOf = async (page: Page, pin: string): Promise<number> => {
  const label = await page.locator(`[data-pin=${pin}]`).getAttribute('aria-label');
  return Number(label!.match(/: ([\d.]+) across/)![1]);
};

/** Presses an arrow on a pin and has the page loaded again before anything else can run. */
const nudgeAndReload = async (page: Page, pin: string): Promise<void> => {
  const loaded = page.waitForEvent('load');
  await page.evaluate((name) => {
    const grip = document.querySelector(`[data-pin=${name}]`)!;
    grip.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', shiftKey: true, bubbles: true }));
    location.reload();
  }, pin);
  await loaded;
  await page.locator(`[data-pin=${pin}]`).waitFor();
};

/** A change is kept from the moment it is made, however soon the page is left. */
export const keepsAtOnce = (bench: () => Bench): void => {
  test(
    'keeps every move of a pin when the page is loaded again in the same instant, on a slow machine',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser, { size: 'desktop' });
      const page = await context.newPage();
      await choosePhoto(page, service.address, photoFile('d1-terrace.jpg'));
      await toMarks(page);
      await page.getByText('where the white lines seem to meet').waitFor({ timeout: READING });
      const start = await acrossOf(page, 'corner2');
      const cdp = await context.newCDPSession(page);
      await cdp.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
      const seen: number[] = [];
      for (let round = 0; round < ROUNDS; round++) {
        await nudgeAndReload(page, 'corner2');
        seen.push(await acrossOf(page, 'corner2'));
      }
      // Shift and an arrow move a pin by 10 px; labels give tenths.
      expect(seen).toEqual(Array.from({ length: ROUNDS }, (_, i) => expect.closeTo(start + 10 * (i + 1), 5)));
      await context.close();
    },
    2 * READING,
  );
};
