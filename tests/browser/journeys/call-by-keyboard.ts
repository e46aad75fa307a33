import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Bench } from '../support/bench.ts';
import { visit } from '../support/open-browser.ts';
import { photoFile, READING } from '../support/walk.ts';

const MOST_TABS = 60;

/** Presses Tab until the focused thing matches `selector`. */
const tabTo = async (page: Page, selector: string): Promise<void> => {
  for (let i = 0; i < MOST_TABS; i++) {
    await page.keyboard.press('Tab');
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
  }
  throw new Error(`Expected Tab to reach ${selector} but ${MOST_TABS} did not`);
};

/** Presses Tab until the focused button or link says `words`. */
const tabToWords = async (page: Page, words: string): Promise<void> => {
  for (let i = 0; i < MOST_TABS; i++) {
    await page.keyboard.press('Tab');
    if (
      await page.evaluate((wanted) => document.activeElement?.textContent?.includes(wanted) ?? false, words)
    )
      return;
  }
  throw new Error(`Expected Tab to reach "${words}" but ${MOST_TABS} did not`);
};

const placeOf = async (page: Page, pin: string): Promise<[number, number]> => {
  const label = await page.locator(`[data-pin=${pin}]`).getAttribute('aria-label');
  const [, x, y] = label!.match(/: ([\d.]+) across, ([\d.]+) down/)!;
  return [Number(x), Number(y)];
};

const moves = [
  { key: 'ArrowRight', dx: 1, dy: 0 },
  { key: 'Shift+ArrowDown', dx: 0, dy: 10 },
  { key: 'Alt+ArrowLeft', dx: -0.1, dy: 0 },
  { key: 'ArrowUp', dx: 0, dy: -1 },
] as const;

/** From the start to the call without a pointer. Arrows move a pin by 1 px, with Shift 10, with Alt 0.1. */
export const callByKeyboard = (bench: () => Bench): void => {
  test(
    'chooses a photo, moves a pin, reads, and makes the call',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser, { size: 'desktop' });
      const page = await context.newPage();
      await page.goto(service.address);
      await page.getByRole('heading', { level: 1 }).waitFor();
      const chooser = page.waitForEvent('filechooser');
      await tabToWords(page, 'Choose a picture');
      await page.keyboard.press('Enter');
      await (await chooser).setFiles(photoFile('d1-terrace.jpg'));
      await page.waitForURL(/\/photo\//);
      await tabTo(page, 'input[type=radio]');
      await page.keyboard.press('ArrowDown');
      await expect
        .poll(() => page.getByRole('radio', { name: 'Hoop 1', exact: true }).isChecked())
        .toBe(true);
      await tabToWords(page, 'Pin the corners');
      await page.keyboard.press('Enter');
      await page.getByText('where the white lines seem to meet').waitFor({ timeout: READING });

      await tabTo(page, '[data-pin=corner3]');
      for (const { key, dx, dy } of moves) {
        const [x, y] = await placeOf(page, 'corner3');
        await page.keyboard.press(key);
        await expect
          .poll(() => placeOf(page, 'corner3'))
          .toEqual([expect.closeTo(x + dx, 5), expect.closeTo(y + dy, 5)]);
      }
      // Enter on the pin goes to its own buttons, past the pins that Tab would choose on the way.
      await page.keyboard.press('Enter');
      await expect
        .poll(() => page.evaluate(() => document.activeElement?.textContent))
        .toBe('Pull corner 3 to the lines');
      await page.keyboard.press('Enter');
      await page.getByText(/^Pulled corner 3/).waitFor({ timeout: READING });
      await tabToWords(page, 'Read this photo');
      await page.keyboard.press('Enter');
      await page.waitForURL(/\/balls\//, { timeout: READING });
      await page.locator('[data-ball]').first().waitFor();
      await tabToWords(page, 'Make the call');
      await page.keyboard.press('Enter');
      await page.waitForURL(/\/call\//);
      await page.getByRole('button', { name: /Yellow: all of it is past the line/ }).waitFor();
      await context.close();
    },
    2 * READING,
  );
};
