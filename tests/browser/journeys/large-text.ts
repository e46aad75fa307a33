import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { atRest } from '../support/at-rest.ts';
import type { Bench } from '../support/bench.ts';
import { openScreen, type Screen } from '../support/every-screen.ts';
import { visit } from '../support/open-browser.ts';

/** Text that is cut off or leaves the screen, as sentences; a picture may be panned and a title shortened by its author is none here. */
const lostOn = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const lost: string[] = [];
    const wide = document.documentElement.scrollWidth;
    if (wide > window.innerWidth + 1) lost.push(`the screen is ${wide} px wide`);
    for (const element of document.querySelectorAll('button, a, label, p, h1, h2, h3, legend, li')) {
      const style = getComputedStyle(element);
      const cut = style.overflowX !== 'visible' && element.scrollWidth > element.clientWidth + 2;
      const box = element.getBoundingClientRect();
      const outside = box.width > 0 && (box.right > window.innerWidth + 2 || box.left < -2);
      const over = element.closest('[data-stage], [data-plan-ball], .visually-hidden, svg');
      if ((cut || outside) && !over)
        lost.push(`${element.tagName} "${element.textContent?.trim().slice(0, 40)}"`);
    }
    return lost;
  });

/** At twice the text size nothing is lost at 390 px. */
export const largeText = (bench: () => Bench, screens: () => readonly Screen[]): void => {
  test('loses nothing when text is twice as large', async () => {
    const { browser, service } = bench();
    const context = await visit(browser);
    const page = await context.newPage();
    const found: Record<string, string[]> = {};
    for (const screen of screens()) {
      await openScreen(page, service.address, screen);
      await page.addStyleTag({ content: 'html { font-size: 200% }' });
      await atRest(page);
      const lost = await lostOn(page);
      if (lost.length > 0) found[screen.name] = lost;
    }
    expect(found).toEqual({});
    await context.close();
  }, 480_000);
};
