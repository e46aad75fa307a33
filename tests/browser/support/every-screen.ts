import type { Page } from 'playwright-core';
import { atRest } from './at-rest.ts';
import { addToGame, BEFORE_HOOP_1, beginDemo, HOOP_1 } from './demo-game.ts';
import { readFixture } from './read-fixture.ts';

/** A screen by name and address, and what is on it when it is complete. */
export type Screen = { readonly name: string; readonly path: string; readonly ready: string };

/** Every screen that has an address of its own, over one reading of each kind and one game. */
export const everyScreen = async (address: string): Promise<Screen[]> => {
  const lawn = await readFixture(address, 'd1-terrace', 'lawn');
  const sighting = await readFixture(address, 'd7-sighting', 'sighting');
  const check = await readFixture(address, 'd4-mast', 'check');
  const game = await beginDemo(address);
  await addToGame(address, game, [...BEFORE_HOOP_1, { ...HOOP_1, reading: lawn }]);
  return [
    { name: 'start', path: '/', ready: 'h1' },
    { name: 'photo', path: `/again/${lawn}/photo`, ready: 'input[type=checkbox]' },
    { name: 'marks', path: `/again/${lawn}/marks`, ready: '[data-pin]' },
    { name: 'balls', path: `/balls/${lawn}`, ready: '[data-ball]' },
    { name: 'call', path: `/call/${lawn}`, ready: '[data-stage]' },
    { name: 'readings', path: '/readings', ready: 'li a' },
    { name: 'settings', path: '/settings', ready: 'input[type=text]' },
    { name: 'games', path: '/games', ready: 'li a' },
    { name: 'new game', path: '/games/new', ready: 'fieldset' },
    { name: 'game', path: `/games/${game}`, ready: 'figure canvas' },
    { name: 'turn', path: `/games/${game}/turn`, ready: '[data-plan-ball]' },
    { name: 'putting back', path: `/games/${game}/putback`, ready: 'dl' },
    { name: 'wrong ball', path: '/games/wrong-ball', ready: 'fieldset' },
    { name: 'court', path: '/court', ready: 'section h2' },
    { name: 'along the line', path: `/court/sighting/${sighting}`, ready: '[data-stage]' },
    { name: 'balls along the line', path: `/balls/${sighting}`, ready: '[data-ball]' },
    { name: 'court check', path: `/court/check/${check}`, ready: '[data-stage]' },
    { name: 'together', path: '/court/together', ready: 'input[type=checkbox]' },
    { name: 'where to stand', path: '/court/stand', ready: 'figure svg' },
    { name: 'nothing here', path: '/nowhere', ready: 'h1' },
  ];
};

/** Opens a screen and waits until it is complete. */
export const openScreen = async (page: Page, address: string, { path, ready }: Screen): Promise<void> => {
  await page.goto(`${address}${path}`);
  await page.locator(ready).first().waitFor();
  await atRest(page);
};
