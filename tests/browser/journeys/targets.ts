import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Bench } from '../support/bench.ts';
import { openScreen, type Screen } from '../support/every-screen.ts';
import { type SizeName, visit } from '../support/open-browser.ts';

/** What a thumb hits without looking, CSS px each way. */
const THUMB = 44;

/**
 * Everything that can be pressed and is smaller than a thumb, as sentences. A hidden input counts as large as the label it lies in, since a press
 * on the label presses it; links within a sentence are as high as their line, which is the text's own measure.
 */
const smallOn = (page: Page): Promise<string[]> =>
  page.evaluate((thumb) => {
    const small: string[] = [];
    const pressable =
      'a[href], button, input, select, textarea, summary, [role=button], [role=switch], [role=slider]';
    const labelsOf = (element: Element): Element[] => {
      const { labels, type } = element as HTMLInputElement;
      return ['checkbox', 'radio'].includes(type) ? [...(labels ?? [])] : [];
    };
    const boxOf = (element: Element): { width: number; height: number } => {
      const boxes = [element, ...labelsOf(element)].map((one) => one.getBoundingClientRect());
      const across =
        Math.max(...boxes.map(({ right }) => right)) - Math.min(...boxes.map(({ left }) => left));
      const down = Math.max(...boxes.map(({ bottom }) => bottom)) - Math.min(...boxes.map(({ top }) => top));
      return { width: across, height: down };
    };
    const inSentence = (element: Element): boolean =>
      element.matches('a') &&
      getComputedStyle(element).display === 'inline' &&
      element.parentElement!.textContent!.trim() !== element.textContent!.trim();
    for (const element of document.querySelectorAll(pressable)) {
      const { width, height } = boxOf(element);
      const hidden =
        element.closest('[hidden], .visually-hidden, [inert]') ||
        getComputedStyle(element).visibility === 'hidden';
      if (width === 0 || height === 0 || hidden || inSentence(element)) continue;
      if ((element as HTMLInputElement).type === 'file' && width < 2) continue;
      if (width >= thumb - 0.5 && height >= thumb - 0.5) continue;
      const name = element.getAttribute('aria-label') ?? element.textContent?.trim().slice(0, 40);
      small.push(`${element.tagName.toLowerCase()} "${name}" ${Math.round(width)} × ${Math.round(height)}`);
    }
    return small;
  }, THUMB);

/** Nothing that can be pressed is smaller than a thumb, the phone upright or turned. */
export const targets = (bench: () => Bench, screens: () => readonly Screen[]): void => {
  test.each<SizeName>(['phone', 'turned'])(
    'is large enough for a thumb at %s size',
    async (size) => {
      const { browser, service } = bench();
      const context = await visit(browser, { size });
      const page = await context.newPage();
      const found: Record<string, string[]> = {};
      for (const screen of screens()) {
        await openScreen(page, service.address, screen);
        const small = await smallOn(page);
        if (small.length > 0) found[screen.name] = small;
      }
      expect(found).toEqual({});
      await context.close();
    },
    480_000,
  );
};
