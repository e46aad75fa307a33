import type { Page } from 'playwright-core';
import { atRest } from '../browser/support/at-rest.ts';
import { readFixture } from '../browser/support/read-fixture.ts';
import { choosePhoto, photoFile, toMarks } from '../browser/support/walk.ts';

/** Takes a picture of the screen; `whole` the page's full height. */
export type Shoot = (name: string, whole?: boolean) => Promise<void>;

type Show = (given: { page: Page; address: string; shoot: Shoot }) => Promise<void>;

/** States of screens that an address alone does not lead to, by name. */
export const SCREENS: readonly (readonly [string, Show])[] = [
  [
    'marking',
    async ({ page, address, shoot }) => {
      await choosePhoto(page, address, photoFile('d1-terrace.jpg'));
      await page.getByLabel('Hoop 1', { exact: true }).check();
      await toMarks(page);
      await page.getByText('where the white lines seem to meet').waitFor();
      await page.locator('[data-pin=corner2]').focus();
      await atRest(page);
      await shoot('marks pin');
      await page.getByRole('button', { name: 'Another point' }).click();
      await atRest(page);
      await shoot('marks map');
    },
  ],
  [
    'correcting',
    async ({ page, address, shoot }) => {
      await page.goto(`${address}/balls/${await readFixture(address, 'd1-terrace', 'lawn')}`);
      await page.locator('[data-ball]').first().click({ force: true });
      await atRest(page);
      await shoot('balls chosen');
    },
  ],
  [
    'showing',
    async ({ page, address, shoot }) => {
      await page.goto(`${address}/court/check/${await readFixture(address, 'd4-mast', 'check')}`);
      await page.locator('[data-stage]').waitFor();
      await page.getByRole('button', { name: 'Show Marker on the west boundary in the photo' }).click();
      await atRest(page);
      await shoot('court check shown');
    },
  ],
];
