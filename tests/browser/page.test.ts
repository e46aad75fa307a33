import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe } from 'vitest';
import { accessible } from './journeys/accessible.ts';
import { callByHand } from './journeys/call-by-hand.ts';
import { callByKeyboard } from './journeys/call-by-keyboard.ts';
import { correctBalls } from './journeys/correct-balls.ts';
import { courtAndLine } from './journeys/court-and-line.ts';
import { keepsAtOnce } from './journeys/keeps-at-once.ts';
import { keepsWork } from './journeys/keeps-work.ts';
import { largeText } from './journeys/large-text.ts';
import { marking } from './journeys/marking.ts';
import { sharing } from './journeys/sharing.ts';
import { targets } from './journeys/targets.ts';
import type { Bench } from './support/bench.ts';
import { everyScreen, type Screen } from './support/every-screen.ts';
import { openBrowser } from './support/open-browser.ts';
import { type RunningService, runService } from './support/run-service.ts';

describe('the page in a browser, with the program running', () => {
  let browser: Browser;
  let service: RunningService;
  const bench = (): Bench => ({ browser, service });
  beforeAll(async () => {
    [browser, service] = await Promise.all([openBrowser(), runService()]);
  }, 240_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  describe('from a photo to a call', () => callByHand(bench));
  describe('by keyboard alone', () => callByKeyboard(bench));
  describe('marking', () => marking(bench));
  describe('the balls', () => correctBalls(bench));
  describe('handing on, finding again, settings', () => sharing(bench));
  describe('along the line, the court, where to stand', () => courtAndLine(bench));
  describe('every screen', () => {
    let screens: readonly Screen[] = [];
    beforeAll(async () => {
      screens = await everyScreen(service.address);
    }, 240_000);
    accessible(bench, () => screens);
    largeText(bench, () => screens);
    targets(bench, () => screens);
  });
  describe('left in the middle', () => keepsAtOnce(bench));
  describe('when things go wrong', () => keepsWork(bench));
});
