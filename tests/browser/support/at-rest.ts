import type { Page } from 'playwright-core';

/** Frames in a row without a change that count as rest. */
const STILL_FRAMES = 4;

/**
 * Resolves when letters and pictures are there, nothing moves, and the layout has stayed as it is for some frames. Within the page no function
 * has a name: what runs these files may wrap named ones in a helper that the page does not have.
 */
export const atRest = (page: Page): Promise<void> =>
  page.evaluate(async (still) => {
    let before = '';
    for (let same = 0; same < still; ) {
      await new Promise((done) => requestAnimationFrame(done));
      const now = [...document.querySelectorAll('main, main *')]
        .map((element) => Object.values(element.getBoundingClientRect().toJSON()).join())
        .join(' ');
      const loaded =
        document.fonts.status === 'loaded' &&
        [...document.images].every((image) => image.complete || image.loading === 'lazy') &&
        document.getAnimations().every(({ playState }) => playState !== 'running');
      same = now === before && loaded ? same + 1 : 0;
      before = now;
    }
  }, STILL_FRAMES);
