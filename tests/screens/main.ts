import { mkdir } from 'node:fs/promises';
import { resolve } from 'node:path';
import { everyScreen, openScreen } from '../browser/support/every-screen.ts';
import { openBrowser, SIZES, type SizeName, visit } from '../browser/support/open-browser.ts';
import { runService } from '../browser/support/run-service.ts';
import { takeReadmePictures } from './readme-pictures.ts';
import { SCREENS, type Shoot } from './screens.ts';

const FOLDER = resolve(import.meta.dirname, '..', '..', 'screens');
const LIGHTS = [
  ['', false],
  ['-dark', true],
] as const;

/** Pictures of every screen and of its states, in all sizes, in light and dark, into the ignored folder `screens`; by name only those named. `readme` takes those anew that the README shows. */
const main = async (): Promise<void> => {
  const only = process.argv.slice(2);
  const wanted = (name: string) => only.length === 0 || only.includes(name);
  await mkdir(FOLDER, { recursive: true });
  const browser = await openBrowser();
  const service = process.env.SWARD_ADDRESS ? null : await runService();
  const address = process.env.SWARD_ADDRESS ?? service!.address;
  try {
    if (only.includes('readme')) await takeReadmePictures(browser, address);
    if (only.length === 1 && only[0] === 'readme') return;
    const screens = (await everyScreen(address)).filter(({ name }) => wanted(name));
    for (const size of Object.keys(SIZES) as SizeName[]) {
      for (const [light, dark] of LIGHTS) {
        const context = await visit(browser, { size, dark });
        const page = await context.newPage();
        const shoot: Shoot = async (name, whole = false) => {
          const path = resolve(FOLDER, `${name.replaceAll(' ', '-')}-${size}${light}.png`);
          await page.screenshot({ path, fullPage: whole });
        };
        for (const screen of screens) {
          await openScreen(page, address, screen);
          await shoot(screen.name);
          await shoot(`${screen.name} whole`, true);
        }
        for (const [name, show] of SCREENS) {
          if (!wanted(name)) continue;
          await show({ page, address, shoot }).catch((error) => console.error(`${name}: ${error}`));
        }
        await context.close();
        console.log(`${size}${light}: done`);
      }
    }
  } finally {
    await browser.close();
    await service?.close();
  }
};

await main();
