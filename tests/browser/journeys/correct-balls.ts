import { expect, test } from 'vitest';
import { atRest } from '../support/at-rest.ts';
import type { Bench } from '../support/bench.ts';
import { type SizeName, visit } from '../support/open-browser.ts';
import { readFixture } from '../support/read-fixture.ts';
import { READING } from '../support/walk.ts';

/** Letters by which the balls are known unless a club chooses others. */
const LETTERS = {
  blue: 'B',
  red: 'R',
  black: 'K',
  yellow: 'Y',
  green: 'G',
  pink: 'P',
  brown: 'N',
  white: 'W',
};

/** Balls are known by letter alone, and colour, place and number of them can be put right and undone. */
export const correctBalls = (bench: () => Bench): void => {
  test.each<SizeName>(['phone', 'desktop'])(
    'are lettered, taken away, added and brought back at %s size',
    async (size) => {
      const { browser, service } = bench();
      const id = await readFixture(service.address, 'd1-terrace', 'lawn');
      const context = await visit(browser, { size });
      const page = await context.newPage();
      await page.goto(`${service.address}/balls/${id}`);
      const yellow = page.locator('[data-ball=yellow]');
      await yellow.waitFor({ timeout: READING });
      for (const tag of await page.locator('[data-ball]').all()) {
        const colour = (await tag.getAttribute('data-ball')) as keyof typeof LETTERS;
        expect(await tag.textContent()).toBe(LETTERS[colour]);
      }
      await atRest(page);
      await yellow.click({ force: true });
      await page.getByRole('button', { name: /take it away/ }).click();
      await expect.poll(() => yellow.count()).toBe(0);

      await page.getByRole('radio', { name: 'Yellow' }).click();
      await page.getByRole('button', { name: 'Put it in the middle' }).click();
      await yellow.waitFor();
      await expect.poll(() => yellow.getAttribute('aria-label')).toBe('Yellow, placed by hand');

      for (let i = 0; i < 2; i++) {
        await expect.poll(() => page.getByRole('button', { name: 'Undo' }).isEnabled()).toBe(true);
        const kept = page.waitForResponse((answer) => answer.request().method() === 'PATCH' && answer.ok());
        await page.getByRole('button', { name: 'Undo' }).click();
        await kept;
      }
      await expect.poll(() => yellow.getAttribute('aria-label')).toBe('Yellow, found');
      await context.close();
    },
    READING,
  );

  test(
    'says that a ball past the line is offside once it is said how it came there',
    async () => {
      const { browser, service } = bench();
      const id = await readFixture(service.address, 'd1-terrace', 'lawn');
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(`${service.address}/call/${id}`);
      const card = page.getByRole('listitem').filter({ hasText: /Yellow: all of it is past the line/ });
      await card.waitFor({ timeout: READING });
      const head = card.getByRole('button').first();
      if ((await head.getAttribute('aria-expanded')) === 'false') await head.click();
      await card
        .getByLabel('How did Yellow come to lie there?')
        .selectOption({ label: 'By its own side, none of these' });
      await card.getByText('Offside', { exact: true }).waitFor();
      await card
        .getByLabel('How did Yellow come to lie there?')
        .selectOption({ label: "It touched an opponent's ball on its way" });
      await card.getByText('Past the line, and may stay').waitFor();
      await context.close();
    },
    READING,
  );
};
