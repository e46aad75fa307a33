import type { Raster } from '../types.ts';
import type { BallView } from './ball-view.ts';
import { distanceTo, type KnownThing, uprightsNear } from './exclusions.ts';
import type { CellNoise } from './noise-model.ts';
import { offLawnAt } from './off-lawn.ts';
import type { OutlineFit } from './outline-shape.ts';

/** Heights above the outline's middle, radii, between which something that stands on the place is looked for, and the step. */
const FROM = 1.5;
const TO = 4;
const STEP = 0.25;
/** Half width of the strip that is looked at, and of its middle, where a pole on the place must stand, radii; px are read this far apart. */
const HALF = 2;
const MIDDLE = 0.75;
const PACE = 0.25;
/** Widest pole, radii: legs and clothes are wider. */
const WIDEST = 1.4;
/** Contrast, in standard deviations of one cell, from which a px differs from lawn; a strip's largest of a dozen px of lawn reaches 2.5 (normal distribution). */
const DIFFERS = 4;

/**
 * Share, 0 to 1, of the heights above the outline at which something differs from the lawn: near 1 where a shaft, a pole or an upright
 * stands on the place, near 0 above a ball on open lawn and above one that stands before a hoop where the court has one. `noise` is the lawn's in this picture. 0 at the
 * picture's edge.
 */
export const poleAbove = (
  raster: Raster,
  view: BallView,
  fit: OutlineFit,
  noise: CellNoise,
  things: readonly KnownThing[],
): number => {
  const uprights = uprightsNear(things, fit.x, fit.y, (TO + HALF) * view.radius);
  const differs = (up: number, side: number): boolean => {
    const x = fit.x - up * view.ax + side * view.bx;
    const y = fit.y - up * view.ay + side * view.by;
    return (
      offLawnAt(raster, fit, noise, x, y) > DIFFERS &&
      uprights.every((known) => distanceTo(known, x, y) > known.near + 1)
    );
  };
  let rows = 0;
  let poles = 0;
  for (let up = FROM; up <= TO; up += STEP) {
    rows++;
    if (poleInRow((side) => differs(up, side))) poles++;
  }
  return poles / rows;
};

/** Whether one of the row's stretches that differ from lawn is narrow and touches the middle. */
const poleInRow = (differs: (side: number) => boolean): boolean => {
  let start: number | null = null;
  for (let v = -HALF; v <= HALF + PACE; v += PACE) {
    const here = v <= HALF && differs(v);
    if (here && start === null) start = v;
    if (here || start === null) continue;
    if (v - start <= WIDEST && start < MIDDLE && v - PACE > -MIDDLE) return true;
    start = null;
  }
  return false;
};
