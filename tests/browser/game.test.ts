import { readFile } from 'node:fs/promises';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { atRest } from './support/at-rest.ts';
import {
  addToGame,
  BEFORE_HOOP_1,
  DEMO_GAME,
  HOOP_2,
  readSample,
  TO_HOOP_2,
  TO_HOOP_3,
  TO_THE_END,
  TO_THE_SECOND_PICTURE,
} from './support/demo-game.ts';
import { complaintsOf, openBrowser, visit } from './support/open-browser.ts';
import { type RunningService, runService } from './support/run-service.ts';
import { READING } from './support/walk.ts';

let browser: Browser;
let club: RunningService;
let elsewhere: RunningService;
let context: BrowserContext;
let page: Page;
let complaints: string[];
let id: string;

beforeAll(async () => {
  browser = await openBrowser();
  club = await runService();
  elsewhere = await runService();
  context = await visit(browser);
  page = await context.newPage();
  complaints = complaintsOf(page);
});
afterAll(async () => {
  await browser?.close();
  await club?.close();
  await elsewhere?.close();
});

const heading = (name: string | RegExp) => page.getByRole('heading', { name });
const button = (name: string | RegExp) => page.getByRole('button', { name });
/** An answer to a question: a tile of the group with that legend. */
const answer = (question: string | RegExp, choice: string) =>
  page.getByRole('group', { name: question }).getByRole('radio', { name: choice, exact: true });

const openGame = async (): Promise<void> => {
  await page.goto(`${club.address}/games/${id}`);
  await heading(DEMO_GAME.title).waitFor();
};
const openTurn = async (): Promise<void> => {
  await openGame();
  await page.getByRole('link', { name: 'Enter this turn' }).click();
  await page.locator('[data-plan-ball]').first().waitFor();
};
/** Drags a ball on the plan by CSS px. */
const drag = async (ball: string, dx: number, dy: number): Promise<void> => {
  const handle = page.locator(`[data-plan-ball=${ball}]`);
  await handle.scrollIntoViewIfNeeded();
  await atRest(page);
  const { x, y, width, height } = (await handle.boundingBox())!;
  const [px, py] = [x + width / 2, y + height / 2];
  await page.mouse.move(px, py);
  await page.mouse.down();
  await page.mouse.move(px + dx / 2, py + dy / 2);
  await page.mouse.move(px + dx, py + dy);
  await page.mouse.up();
};
const press = async (ball: string, key: string, times: number): Promise<void> => {
  await page.locator(`[data-plan-ball=${ball}]`).focus();
  for (let i = 0; i < times; i++) await page.keyboard.press(key);
};
/** What axe has against the screen, in light and in dark. */
const violations = async (): Promise<string[]> => {
  const found: string[] = [];
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    const { violations: all } = await new AxeBuilder({ page }).analyze();
    found.push(...all.map((one) => `${colorScheme}: ${one.id} ${one.nodes[0]?.html.slice(0, 120)}`));
  }
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  return found;
};
/** Presses a button that logs something, and waits until it is kept: what the test itself logs next must not come before. */
const logBy = async (name: string | RegExp): Promise<void> => {
  const kept = page.waitForResponse(
    (answered) => answered.request().method() === 'POST' && /\/events$/.test(answered.url()) && answered.ok(),
  );
  await button(name).click();
  await kept;
};
const entry = (words: string) => page.locator('[data-entry]').filter({ hasText: words });

describe('a game from its beginning to its end', () => {
  it('begins with its players, hoops and balls', async () => {
    await page.goto(`${club.address}/games`);
    await heading('Games').waitFor();
    expect(await violations()).toEqual([]);
    await page.getByRole('link', { name: 'Begin a game' }).click();
    await page.getByRole('radio', { name: 'Doubles' }).check();
    await page.getByRole('radio', { name: '7, first to 4' }).check();
    for (const [ball, name] of Object.entries(DEMO_GAME.names))
      await page.getByLabel(new RegExp(`Player of ${ball}`, 'i')).fill(name);
    await page.getByLabel('Called').fill(DEMO_GAME.title);
    expect(await violations()).toEqual([]);
    await button('Begin the game').click();
    await heading(DEMO_GAME.title).waitFor();
    id = page.url().split('/').at(-1)!;
    await page.getByText('At the start blue plays.').waitFor();
  });

  it('takes a turn by dragging the ball on the plan', async () => {
    await openTurn();
    await drag('blue', -180, -50);
    await page.getByText('Blue moved.').waitFor();
    // A phone that put the page away while its camera was open brings it back as it was.
    await page.reload();
    await page.getByText('Blue moved.').waitFor();
    expect(await violations()).toEqual([]);
    await logBy('Enter the turn');
    await page.getByText('After blue, red plays.').waitFor();
  });

  it('takes a turn from a picture, and asks which ball scored', { timeout: 2 * READING }, async () => {
    await addToGame(club.address, id, BEFORE_HOOP_1.slice(1));
    await readSample(club.address, 'd1-terrace', ['blue', 'red', 'black', 'yellow']);
    await openTurn();
    await page.getByText('Take the places from a picture').click();
    await button(/^Picture of/).click();
    await page.getByText('By the picture, Yellow moved.').waitFor();
    await page.getByText('Still to say: whether hoop 1 was scored.').waitFor();
    await expect.poll(() => button('Enter the turn').isDisabled()).toBe(true);
    await answer('Was hoop 1 scored?', 'Yellow').check();
    expect(await violations()).toEqual([]);
    await logBy('Enter the turn');
    await page.getByText('Yellow is past the line and may stay.').waitFor();
  });

  it('keeps a referee’s decision with its reason', async () => {
    await button('The referee decides').click();
    await answer('About', 'Blue').check();
    await answer('Blue is', 'Offside').check();
    await page.getByLabel("The referee's reason").fill('a string from mark to mark lies behind it');
    expect(await violations()).toEqual([]);
    await logBy('Log the decision');
    await page.getByText('By the referee: a string from mark to mark lies behind it').waitFor();
  });

  it('lets the opponents direct the offside ball, and then no longer', async () => {
    await page.getByText('The side of Red and Yellow chooses, before the next stroke.').waitFor();
    expect(await violations()).toEqual([]);
    await logBy('To the west');
    await page.getByText('Blue goes to the west penalty area.').waitFor();
    await expect.poll(() => button('To the east').count()).toBe(0);
  });

  it('sees a wrong ball, says whose choice it is, and puts it back', async () => {
    await addToGame(club.address, id, TO_HOOP_2);
    await openTurn();
    await press('red', 'Shift+ArrowLeft', 2);
    await page.getByText('A wrong ball.').waitFor();
    await logBy('Enter the wrong ball');
    await page.getByText('A wrong ball was played. Stop play.').waitFor();
    await page.getByText('That of Blue and Black.').waitFor();
    expect(await violations()).toEqual([]);
    await logBy('Put the balls back and play the turn again');
    await page.getByText('After black, yellow plays.').waitFor();
  });

  it('excuses a ball that touched an opponent’s ball on its way', async () => {
    await addToGame(club.address, id, HOOP_2);
    await openGame();
    await page.getByText('Black is past the line and may stay.').waitFor();
    await page.getByText(/Black touched red, an opponent's ball/).waitFor();
  });

  it('stops for the day with a card to put the balls back, and goes on', async () => {
    await addToGame(club.address, id, TO_HOOP_3);
    await openGame();
    await button('Stop for today').click();
    await page.getByLabel('Why').fill('Failing light');
    await page.getByLabel('Why').press('Tab');
    await page.locator('button', { hasText: 'Stop for today' }).last().click();
    await page.getByText('Play is suspended.').waitFor();
    await page.getByRole('link', { name: 'Where balls go back' }).click();
    await heading('Putting balls back').waitFor();
    // Black rests 28.0 m from the south, so 4.004 m from the north boundary: 4 yd 1 ft 2 in.
    await page.getByText('4 yd 1 ft 2 in').first().waitFor();
    expect(await violations()).toEqual([]);
    await openGame();
    await logBy('Go on playing');
    await page.getByText('After black, yellow plays.').waitFor();
  });

  it('sees in a second picture which ball has moved since', { timeout: 2 * READING }, async () => {
    await addToGame(club.address, id, TO_THE_SECOND_PICTURE);
    await readSample(club.address, 'clubhouse-noon', ['blue', 'red', 'black', 'yellow']);
    await openTurn();
    await page.getByText('Take the places from a picture').click();
    await button(/^Picture of/)
      .first()
      .click();
    // Blue, red and black lie where they were placed, within what a finger on a plan can tell.
    await page.getByText('By the picture, Yellow moved.').waitFor();
    // From before hoop 6 to well past it: only people know whether through it.
    await answer('Was hoop 6 scored?', 'No').check();
    await logBy('Enter the turn');
    await page.getByText('After yellow, blue plays.').waitFor();
    await page.getByRole('group', { name: 'The photo with the halfway line drawn on it' }).waitFor();
  });

  it('corrects an earlier turn, and keeps what stood before', async () => {
    await addToGame(club.address, id, TO_THE_END.slice(0, -1));
    await openGame();
    await entry('Yellow played. Yellow scored hoop 5.').getByRole('button').first().click();
    await page.getByRole('link', { name: 'Correct this turn' }).click();
    await heading('Correct this turn').waitFor();
    await press('yellow', 'ArrowUp', 5);
    await page.getByLabel('Why it is corrected, if you like').fill('Measured again with a tape');
    expect(await violations()).toEqual([]);
    await logBy('Enter the correction');
    await page.getByText('One entry was corrected').waitFor();
    const log = (await (await fetch(`${club.address}/api/games/${id}/export.json`)).json()) as {
      entries: { event: { type: string; reason?: string } }[];
    };
    expect(log.entries.at(-1)?.event).toMatchObject({
      type: 'correction',
      how: 'replace',
      reason: 'Measured again with a tape',
    });
  });

  it('ends when the winning hoop is scored', async () => {
    await openTurn();
    await press('red', 'Shift+ArrowUp', 5);
    await answer('Was hoop 6 scored?', 'Red').check();
    await page.getByText('That wins the game.').waitFor();
    await logBy('Enter the turn');
    await page.getByText('Red and yellow have won.').waitFor();
    await logBy('Close the game');
    await page.getByText('The game is over.').waitFor();
    expect(await violations()).toEqual([]);
  });

  it('goes back and on through its turns on the plan', async () => {
    const plan = page.getByRole('img', { name: /^Plan of the lawn after/ });
    await button('A turn back').click();
    await expect.poll(() => plan.getAttribute('aria-label')).toContain('Red scored hoop 6');
    await button('A turn on').click();
    await expect.poll(() => plan.getAttribute('aria-label')).toContain('The game ended');
  });

  it('shows the same when its file is taken in by an empty installation', async () => {
    const shown = async () => ({
      score: await page.getByRole('region', { name: 'Score' }).textContent(),
      hoops: await page.getByRole('list', { name: 'Hoops' }).textContent(),
      turns: await page.locator('[data-entry] > button').allTextContents(),
    });
    const here = await shown();
    const waiting = page.waitForEvent('download');
    await page.getByRole('link', { name: 'The whole log' }).click();
    const file = await (await waiting).path();
    expect(JSON.parse(await readFile(file, 'utf8'))).toMatchObject({ kind: 'sward-game', version: 1 });
    await page.goto(`${elsewhere.address}/games`);
    await heading('No game yet').waitFor();
    await page.locator('input[data-game-file]').setInputFiles({
      name: 'game.json',
      mimeType: 'application/json',
      buffer: await readFile(file),
    });
    await heading(DEMO_GAME.title).waitFor();
    await expect.poll(shown).toEqual(here);
    // A beginning, 34 turns and a wrong ball, a referee, a direction, a remedy, stopping, going on, the end.
    expect(here.turns).toHaveLength(42);
    expect(here.score).toMatch(/2\D+4/);
  });

  it('helps with a wrong ball by questions when there is no log', async () => {
    await page.goto(`${elsewhere.address}/games/wrong-ball`);
    await heading('A wrong ball was played').waitFor();
    for (const choice of ['6th edition, 2022', 'Singles', 'First colours', 'Blue', 'No, later'])
      await page.getByRole('radio', { name: choice, exact: true }).click();
    await answer('Ball that was struck', 'Yellow').check();
    await answer('Struck by the side of', 'Red and Yellow').check();
    await button('That stroke was played').click();
    expect(await violations()).toEqual([]);
    await button('No further stroke: what now?').click();
    await heading('The opponents choose').waitFor();
    await page.getByText('That of Blue and Black.').waitFor();
    expect(await violations()).toEqual([]);
  });

  it('never complains', () => {
    expect(complaints).toEqual([]);
  });
});
