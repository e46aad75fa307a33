import type { Page } from 'playwright-core';

/** Frames in a row without a change that count as rest. */
const STILL_FRAMES = 4;

/** Resolves when letters and pictures are there, nothing moves, and the layout has stayed as it is for some frames. */
export const atRest = (page: Page): Promise<void> =>
  page.evaluate(async (still) => {
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    const layout = (): string => {
      const boxes = [...document.querySelectorAll('main, main *')].map((element) => {
        const { x, y, width, height } = element.getBoundingClientRect();
        return `${x},${y},${width},${height}`;
      });
      return boxes.join(' ');
    };
    const loaded = () =>
      document.fonts.status === 'loaded' &&
      [...document.images].every((image) => image.complete || image.loading === 'lazy') &&
      document.getAnimations().every(({ playState }) => playState !== 'running');
    let before = '';
    for (let same = 0; same < still; ) {
      await frame();
      const now = layout();
      same = now === before && loaded() ? same + 1 : 0;
      before = now;
    }
  }, STILL_FRAMES);
