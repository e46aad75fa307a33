import { LOGISTIC } from './shading.ts';

/** Where the parts of ball and lawn lie that a cell shows, in radii of the ball: a lens mixes what is around, and at the outline each of the two is seen from its own side only. */
export type EdgeBlur = {
  /** How far inwards the ball's part lies, and how far outwards the lawn's, on average. */
  inward: number;
  outward: number;
  /** Variance of the lawn's part. */
  spread: number;
};

/** A cell that shows one place alone. */
export const SHARP: EdgeBlur = { inward: 0, outward: 0, spread: 0 };

/** A cell farther than this from the outline, in standard deviations of the blur, shows one of the two alone. */
const FAR = 3;
/** From here on the smaller part is taken to lie as it does here: it is too small to matter. */
const ACROSS = 2;
/** 1 / √(2π). */
const NORMAL = 0.3989;

/** Works out `out` for a cell `distance` outside the outline (inside negative), in standard deviations of a blur of `blur` radii. */
export const blurAtEdge = (distance: number, blur: number, out: EdgeBlur): void => {
  if (Math.abs(distance) > FAR) {
    out.inward = 0;
    out.outward = 0;
    out.spread = blur * blur;
    return;
  }
  // Means of a normal deviate known to lie beyond −t and below −t, φ(t) / Φ(t) and φ(t) / Φ(−t), with a logistic curve for Φ.
  const t = Math.max(-ACROSS, Math.min(ACROSS, distance));
  const density = NORMAL * Math.exp((-t * t) / 2);
  const odds = Math.exp(LOGISTIC * t);
  const beyond = density * (1 + 1 / odds);
  out.outward = blur * beyond;
  out.inward = blur * density * (1 + odds);
  // The variance of the first.
  out.spread = blur * blur * Math.max(0, 1 - beyond * (beyond + distance));
};
