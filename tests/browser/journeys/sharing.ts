import { expect, test } from 'vitest';
import type { Bench } from '../support/bench.ts';
import { visit } from '../support/open-browser.ts';
import { readFixture } from '../support/read-fixture.ts';
import { READING } from '../support/walk.ts';

/** A call is handed on, found again, and deleted with its photo; a setting holds. */
export const sharing = (bench: () => Bench): void => {
  test(
    'hands on picture, printed card and text, with and without the photo',
    async () => {
      const { browser, service } = bench();
      const id = await readFixture(service.address, 'd1-terrace', 'lawn');
      const context = await visit(browser, { size: 'desktop' });
      const page = await context.newPage();
      await page.goto(`${service.address}/call/${id}`);
      const picture = page.getByRole('link', { name: 'Save as a picture' });
      await picture.waitFor({ timeout: READING });
      expect(await picture.getAttribute('href')).toBe(`/api/readings/${id}/card.png`);
      await page.getByRole('switch', { name: 'With the photo and the people on it' }).click();
      await expect.poll(() => picture.getAttribute('href')).toBe(`/api/readings/${id}/card.png?photo=0`);
      for (const [form, type] of [
        ['card.png', 'image/png'],
        ['card.pdf', 'application/pdf'],
        ['card.txt', 'text/plain'],
      ]) {
        const answer = await context.request.get(`${service.address}/api/readings/${id}/${form}?photo=0`);
        expect(answer.status()).toBe(200);
        expect(answer.headers()['content-type']).toContain(type);
      }
      await context.close();
    },
    READING,
  );

  test(
    'finds a reading by the words of its note and deletes it with its photo',
    async () => {
      const { browser, service } = bench();
      const id = await readFixture(service.address, 'd1-terrace', 'lawn');
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(`${service.address}/call/${id}`);
      const note = page.getByLabel('Note');
      await note.waitFor({ timeout: READING });
      await note.fill('Holm against Reyl, second round');
      const kept = page.waitForResponse((answer) => answer.request().method() === 'PATCH' && answer.ok());
      await note.blur();
      await kept;
      await page.goto(`${service.address}/readings`);
      await page.getByLabel('Words in the note or the call').fill('second round');
      await page.getByRole('link', { name: /Holm against Reyl/ }).click();
      await page.waitForURL(new RegExp(`/call/${id}`));
      const { photoId } = (await (
        await context.request.get(`${service.address}/api/readings/${id}`)
      ).json()) as { photoId: string };
      await page.getByRole('button', { name: 'Delete this reading' }).click();
      await page.getByRole('button', { name: 'Delete reading and photo' }).click();
      await page.waitForURL(/\/readings$/);
      expect((await context.request.get(`${service.address}/api/photos/${photoId}`)).status()).toBe(404);
      await context.close();
    },
    READING,
  );

  test(
    'keeps the units that were chosen',
    async () => {
      const { browser, service } = bench();
      const context = await visit(browser);
      const page = await context.newPage();
      await page.goto(`${service.address}/settings`);
      const kept = async () =>
        ((await (await context.request.get(`${service.address}/api/settings`)).json()) as { units: string })
          .units;
      await page.getByRole('radio', { name: 'Metres' }).click();
      await expect.poll(kept).toBe('metric');
      await page.reload();
      await expect.poll(() => page.getByRole('radio', { name: 'Metres' }).isChecked()).toBe(true);
      await page.getByRole('radio', { name: 'Yards, feet, inches' }).click();
      await expect.poll(kept).toBe('imperial');
      await context.close();
    },
    READING,
  );
};
