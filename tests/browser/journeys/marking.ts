import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { atRest } from '../support/at-rest.ts';
import type { Bench } from '../support/bench.ts';
import { visit } from '../support/open-browser.ts';
import { choosePhoto, photoFile, READING, toMarks } from '../support/walk.ts';

/** As large as phones make them, 12 megapixels. */
const LARGE = { width: 4000, height: 3000 } as const;

type Point = { readonly x: number; readonly y: number };

/** Where a pin points to on the screen, and its place in the photo. */
const pinAt = (page: Page, name: string): Promise<{ screen: Point; photo: Point }> =>
  page.locator(`[data-pin=${name}]`).evaluate((grip) => {
    const box = grip.parentElement!.getBoundingClientRect();
    const [, x, y] = grip.getAttribute('aria-label')!.match(/: ([\d.]+) across, ([\d.]+) down/)!;
    return { screen: { x: box.left, y: box.top }, photo: { x: Number(x), y: Number(y) } };
  });

/** Photo px under a place of the screen, worked out from two pins. */
const photoUnder = async (page: Page, place: Point): Promise<Point> => {
  const [a, b] = [await pinAt(page, 'corner1'), await pinAt(page, 'corner3')];
  const k = (b.screen.x - a.screen.x) / (b.photo.x - a.photo.x);
  return { x: a.photo.x + (place.x - a.screen.x) / k, y: a.photo.y + (place.y - a.screen.y) / k };
};

const openMarks = async (
  { browser, service }: Bench,
  size: 'phone' | 'desktop' = 'phone',
  file = photoFile('d1-terrace.jpg'),
) => {
  const context = await visit(browser, { size });
  const page = await context.newPage();
  await choosePhoto(page, service.address, file);
  await toMarks(page);
  await page.getByText('where the white lines seem to meet').waitFor({ timeout: READING });
  await atRest(page);
  return { context, page };
};

/** Two fingers spread about `centre` from `from` to `to` px apart, by raw touch events. */
const pinch = async (page: Page, centre: Point, from: number, to: number): Promise<void> => {
  const cdp = await page.context().newCDPSession(page);
  const at = (gap: number) => [
    { x: centre.x - gap / 2, y: centre.y, id: 0 },
    { x: centre.x + gap / 2, y: centre.y, id: 1 },
  ];
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(from) });
  for (let i = 1; i <= 8; i++)
    await cdp.send('Input.dispatchTouchEvent', {
      type: 'touchMove',
      touchPoints: at(from + ((to - from) * i) / 8),
    });
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
};

/** Drags a pin with the mouse and resolves with the time between frames meanwhile, ms. */
const dragAndTime = async (page: Page, name: string): Promise<number[]> => {
  const box = (await page.locator(`[data-pin=${name}]`).boundingBox())!;
  const start = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await page.evaluate(() => {
    const held = window as unknown as { frames: number[]; stop: boolean };
    held.frames = [];
    held.stop = false;
    const tick = (time: number) => {
      held.frames.push(time);
      if (!held.stop) requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });
  await page.mouse.move(start.x, start.y);
  await page.mouse.down();
  for (let i = 0; i < 60; i++)
    await page.mouse.move(start.x + 60 * Math.sin(i / 6), start.y + 30 * Math.sin(i / 9));
  await page.mouse.up();
  const frames = await page.evaluate(() => {
    const held = window as unknown as { frames: number[]; stop: boolean };
    held.stop = true;
    return held.frames;
  });
  return frames.slice(1).map((time, i) => time - frames[i]!);
};

/** Pinch, wrong order, points from the map, undo; the time a frame takes is printed. */
export const marking = (bench: () => Bench): void => {
  test(
    'keeps the photo under the fingers when it is pinched',
    async () => {
      const { context, page } = await openMarks(bench());
      const box = (await page.locator('[data-stage]').boundingBox())!;
      const centre = { x: box.x + box.width * 0.4, y: box.y + box.height * 0.45 };
      const before = await photoUnder(page, centre);
      await pinch(page, centre, 60, 240);
      await atRest(page);
      const after = await photoUnder(page, centre);
      // The labels give tenths of a px and the pins thousands of px apart: half a photo px is far inside what a finger can do.
      expect(after.x).toBeCloseTo(before.x, -0.3);
      expect(Math.hypot(after.x - before.x, after.y - before.y)).toBeLessThan(0.5);
      await context.close();
    },
    READING,
  );

  test(
    'finds corners in the wrong order and puts them right with one tap',
    async () => {
      const { context, page } = await openMarks(bench(), 'desktop');
      // Two turns of the numbers are right again as an order; exchanging two corners by hand is not.
      const [two, three] = [await pinAt(page, 'corner2'), await pinAt(page, 'corner3')];
      const drag = async (name: string, by: number) => {
        const grip = (await page.locator(`[data-pin=${name}]`).boundingBox())!;
        await page.mouse.move(grip.x + 20, grip.y + 20);
        await page.mouse.down();
        await page.mouse.move(grip.x + 20 + by / 2, grip.y + 20, { steps: 3 });
        await page.mouse.move(grip.x + 20 + by, grip.y + 20, { steps: 3 });
        await page.mouse.up();
      };
      const gap = three.screen.x - two.screen.x;
      await drag('corner2', gap + 30);
      await atRest(page);
      await drag('corner3', -gap - 30);
      await page.getByText('The corners cross over').waitFor();
      await page.getByRole('button', { name: 'Put them in order' }).click();
      await expect.poll(() => page.getByText('The corners cross over').count()).toBe(0);
      const [first, second] = [await pinAt(page, 'corner2'), await pinAt(page, 'corner3')];
      expect(first.photo.x).toBeLessThan(second.photo.x);
      await context.close();
    },
    READING,
  );

  test(
    'takes a further point from the map and undoes it',
    async () => {
      const { context, page } = await openMarks(bench());
      await page.getByRole('button', { name: 'Another point' }).click();
      await page.getByRole('button', { name: 'Hoop 5' }).click();
      await atRest(page);
      const box = (await page.locator('[data-stage]').boundingBox())!;
      await page.touchscreen.tap(box.x + box.width * 0.5, box.y + box.height * 0.55);
      await page.locator('[data-pin=hoop5]').waitFor();
      await page.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(() => page.locator('[data-pin=hoop5]').count()).toBe(0);
      await context.close();
    },
    READING,
  );

  test(
    'drags a pin over a photo of 12 megapixels; the frames are timed and printed',
    async () => {
      const folder = await mkdtemp(join(tmpdir(), 'sward-large-'));
      const file = join(folder, 'large.jpg');
      await sharp(photoFile('d1-terrace.jpg')).resize(LARGE.width, LARGE.height).jpeg().toFile(file);
      const { context, page } = await openMarks(bench(), 'desktop', file);
      const frames = (await dragAndTime(page, 'corner2')).toSorted((a, b) => a - b);
      const [median, p95] = [
        frames[Math.floor(frames.length / 2)]!,
        frames[Math.floor(frames.length * 0.95)]!,
      ];
      console.log(
        `Frames while dragging: median ${median.toFixed(1)} ms, 95 % within ${p95.toFixed(1)} ms, ${frames.length} frames.`,
      );
      await expect.poll(() => page.getByRole('button', { name: 'Undo' }).isEnabled()).toBe(true);
      expect((await pinAt(page, 'corner2')).photo.x).toBeGreaterThan(0);
      await context.close();
      await rm(folder, { recursive: true, force: true });
    },
    READING,
  );
};
