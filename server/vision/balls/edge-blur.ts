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

/** So many standard deviations of the blur from the outline it is not seen, and so far across it a part is too small to matter where it lies. */
const FAR = 3;
const ACROSS = 2;
/** 1 / √(2π). */
const NORMAL = 0.3989;

/** Mean of a standard normal deviate known to be larger than −t: φ(t) / Φ(t), with a logistic curve for Φ. */
const meanBeyond = (t: number): number => {
  const held = Math.max(-ACROSS, t);
  return NORMAL * Math.exp((-held * held) / 2) * (1 + Math.exp(-LOGISTIC * held));
};

/** Works out `out` for a cell `distance` outside the outline (inside negative), in standard deviations of a blur of `blur` radii. */
export const blurAtEdge = (distance: number, blur: number, out: EdgeBlur): void => {
  if (Math.abs(distance) > FAR) {
    out.inward = 0;
    out.outward = 0;
    out.spread = blur * blur;
    return;
  }
  const beyond = meanBeyond(distance);
  out.outward = blur * beyond;
  out.inward = blur * meanBeyond(-distance);
  // The variance of the same truncated deviate.
  out.spread = blur * blur * Math.max(0, 1 - beyond * (beyond + distance));
};
