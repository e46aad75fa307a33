import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { atRest } from '../support/at-rest.ts';
import type { Bench } from '../support/bench.ts';
import { openScreen, type Screen } from '../support/every-screen.ts';
import { type SizeName, visit } from '../support/open-browser.ts';

/** What axe finds on the page as it is, one line for each thing; `rules` only when given. */
const violationsOn = async (page: Page, rules?: string[]): Promise<string[]> => {
  const axe = new AxeBuilder({ page });
  const { violations } = await (rules ? axe.withRules(rules) : axe).analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(
      ({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary?.split('\n')[1]?.trim()}`,
    ),
  );
};

/** All rules on paper; at dusk the markup is the same, so what can differ is contrast. */
const inBothLights = async (page: Page): Promise<string[]> => {
  const onPaper = await violationsOn(page);
  await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
  await atRest(page);
  const atDusk = await violationsOn(page, ['color-contrast']);
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  return [...onPaper, ...atDusk.map((found) => `at dusk, ${found}`)];
};

/** axe finds nothing to object to on any screen, light or dark. */
export const accessible = (bench: () => Bench, screens: () => readonly Screen[]): void => {
  test.each<SizeName>(['phone', 'desktop'])(
    'has no barrier that axe can find, on paper and at dusk, at %s size',
    async (size) => {
      const { browser, service } = bench();
      const context = await visit(browser, { size });
      const page = await context.newPage();
      const found: Record<string, string[]> = {};
      for (const screen of screens()) {
        await openScreen(page, service.address, screen);
        const violations = await inBothLights(page);
        if (violations.length > 0) found[screen.name] = violations;
      }
      expect(found).toEqual({});
      await context.close();
    },
    480_000,
  );
};
