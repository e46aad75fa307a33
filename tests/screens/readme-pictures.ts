import { resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { openScreen } from '../browser/support/every-screen.ts';
import { visit } from '../browser/support/open-browser.ts';
import { readFixture } from '../browser/support/read-fixture.ts';

const KEPT = resolve(import.meta.dirname, 'kept');
/** A picture with four balls about the line, one of them too close to call. */
const SHOWN = '../rendered/roof-low-sun';

/** Takes the pictures anew that the README shows: the call at both sizes, with the margins that a reading has now. */
export const takeReadmePictures = async (browser: Browser, address: string): Promise<void> => {
  const reading = await readFixture(address, SHOWN, 'lawn');
  for (const size of ['phone', 'desktop'] as const) {
    const context = await visit(browser, { size });
    const page = await context.newPage();
    await openScreen(page, address, { name: 'call', path: `/call/${reading}`, ready: '[data-stage]' });
    await page.screenshot({ path: resolve(KEPT, `call-${size}.png`) });
    await context.close();
  }
};
