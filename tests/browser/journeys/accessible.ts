import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import type { Bench } from '../support/bench.ts';
import { everyScreen, openScreen, type Screen } from '../support/every-screen.ts';
import { visit } from '../support/open-browser.ts';

/** What axe finds on the page as it is, one line for each thing. */
const violationsOn = async (page: Page): Promise<string[]> => {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(
      ({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary?.split('\n')[1]?.trim()}`,
    ),
  );
};

/** axe finds nothing to object to on any screen, light or dark. */
export const accessible = (bench: () => Bench): void => {
  let screens: Screen[] = [];
  beforeAll(async () => {
    screens = await everyScreen(bench().service.address);
  }, 240_000);

  test.each([
    { name: 'on paper, phone', dark: false, size: 'phone' as const },
    { name: 'at dusk, phone', dark: true, size: 'phone' as const },
    { name: 'on paper, desktop', dark: false, size: 'desktop' as const },
  ])(
    'has no barrier that axe can find ($name)',
    async ({ dark, size }) => {
      const { browser, service } = bench();
      const context = await visit(browser, { dark, size });
      const page = await context.newPage();
      const found: Record<string, string[]> = {};
      for (const screen of screens) {
        await openScreen(page, service.address, screen);
        const violations = await violationsOn(page);
        if (violations.length > 0) found[screen.name] = violations;
      }
      expect(found).toEqual({});
      await context.close();
    },
    240_000,
  );
};
