import type { Page } from 'playwright-core';
import { addToGame, BEFORE_HOOP_1, beginDemo, HOOP_1 } from '../browser/support/demo-game.ts';
import type { SizeName } from '../browser/support/open-browser.ts';
import { readFixture } from '../browser/support/read-fixture.ts';
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
  [
    'games',
    async ({ page, address, shoot }) => {
      const id = await beginDemo(address);
      await addToGame(address, id, [...BEFORE_HOOP_1, HOOP_1]);
      await page.goto(`${address}/games`);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await shoot('games');
      await page.goto(`${address}/games/new`);
      await shoot('game-new', true);
      await page.goto(`${address}/games/${id}`);
      await page.getByRole('heading', { level: 2, name: 'Turns' }).waitFor();
      await shoot('game', true);
      await page.goto(`${address}/games/${id}/turn`);
      await page.locator('[data-plan-ball]').first().waitFor();
      await shoot('turn', true);
      await page.goto(`${address}/games/${id}/putback`);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await shoot('putback', true);
      await page.goto(`${address}/games/wrong-ball`);
      await shoot('wrong-ball', true);
    },
  ],
  [
    'court',
    async ({ page, address, shoot }) => {
      await page.goto(`${address}/court`);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await shoot('court', true);
      await page.goto(`${address}/court/stand`);
      await page.getByRole('figure').waitFor({ timeout: 60_000 });
      await shoot('stand', true);
    },
  ],
  [
    'answers',
    async ({ page, address, shoot }) => {
      for (const kind of ['sighting', 'check'] as const) {
        const sample = kind === 'sighting' ? 'd7-sighting' : 'd4-mast';
        const id = await readFixture(address, sample, kind);
        await page.goto(`${address}/court/${kind}/${id}`);
        await page.getByRole('heading', { level: 1 }).waitFor();
        await page.waitForTimeout(1500);
        await shoot(kind, true);
      }
      await page.goto(`${address}/court/together`);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await shoot('together');
    },
  ],
];
