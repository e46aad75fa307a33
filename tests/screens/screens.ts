import type { Page } from 'playwright-core';
import type { SizeName } from '../browser/support/open-browser.ts';
import { choosePhoto, photoFile, sampleCall, toMarks } from '../browser/support/walk.ts';

/** Takes a picture of the screen; `whole` the page's full height. */
export type Shoot = (name: string, whole?: boolean) => Promise<void>;

type Show = (given: { page: Page; address: string; shoot: Shoot; size: SizeName }) => Promise<void>;

/** Every screen by name, in the order in which one meets them. */
export const SCREENS: readonly (readonly [string, Show])[] = [
  [
    'home',
    async ({ page, address, shoot }) => {
      await page.goto(address);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await shoot('home', true);
    },
  ],
  [
    'marks',
    async ({ page, address, shoot }) => {
      await choosePhoto(page, address, photoFile('d1-terrace.jpg'));
      await page.getByLabel('Hoop 1', { exact: true }).check();
      await shoot('photo', true);
      await toMarks(page);
      await page.waitForTimeout(4000);
      await shoot('marks');
      await page.locator('[data-pin=corner2]').focus();
      await shoot('marks-pin');
      await page.getByRole('button', { name: 'Another point' }).click();
      await shoot('marks-map');
    },
  ],
  [
    'call',
    async ({ page, address, shoot }) => {
      const id = await sampleCall(page, address);
      await page.waitForTimeout(1500);
      await shoot('call');
      await shoot('call-whole', true);
      await page.goto(`${address}/balls/${id}`);
      await page.locator('[data-ball]').first().waitFor();
      await shoot('balls');
      await page.locator('[data-ball]').first().click();
      await shoot('balls-chosen');
    },
  ],
  [
    'readings',
    async ({ page, address, shoot }) => {
      await page.goto(`${address}/readings`);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await shoot('readings');
    },
  ],
  [
    'settings',
    async ({ page, address, shoot }) => {
      await page.goto(`${address}/settings`);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await shoot('settings', true);
    },
  ],
];
