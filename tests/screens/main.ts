import { mkdir } from 'node:fs/promises';
import { resolve } from 'node:path';
import { openBrowser, SIZES, type SizeName, visit } from '../browser/support/open-browser.ts';
import { runService } from '../browser/support/run-service.ts';
import { SCREENS, type Shoot } from './screens.ts';

const FOLDER = resolve(import.meta.dirname, '..', '..', 'screens');

/** Pictures of every screen at both sizes, in light and (by name) in dark, into the ignored folder `screens`. */
const main = async (): Promise<void> => {
  const only = process.argv.slice(2);
  await mkdir(FOLDER, { recursive: true });
  const browser = await openBrowser();
  const service = process.env.SWARD_ADDRESS ? null : await runService();
  const address = process.env.SWARD_ADDRESS ?? service!.address;
  try {
    for (const size of Object.keys(SIZES) as SizeName[]) {
      for (const dark of [false, true]) {
        const context = await visit(browser, { size, dark });
        const page = await context.newPage();
        const shoot: Shoot = async (name, whole = false) => {
          await page.waitForTimeout(350);
          await page.screenshot({
            path: resolve(FOLDER, `${name}-${size}${dark ? '-dark' : ''}.png`),
            fullPage: whole,
          });
        };
        for (const [name, show] of SCREENS) {
          if (only.length > 0 && !only.includes(name)) continue;
          if (dark && !only.includes('dark') && only.length > 0) continue;
          console.log(`${name} · ${size}${dark ? ' · dark' : ''}`);
          await show({ page, address, shoot, size }).catch((error) => console.error(`${name}: ${error}`));
        }
        await context.close();
      }
    }
  } finally {
    await browser.close();
    await service?.close();
  }
};

await main();
