/** What share of the lawn's brightness (after the tone curve) a cast shadow takes, and the spread of that. */
export type ShadowDepth = { readonly share: number; readonly sd: number };

/** Of a sunny picture of which nothing is known: sunlight is four times the sky's (SUN_TO_SKY), which the tone curve makes a half. */
export const ANY_DEPTH: ShadowDepth = { share: 0.5, sd: 0.2 };

/** Spread from ball to ball in one picture: blades catch light, and a shadow of a few px is blurred. Measured on the rendered pictures: 0.13, for 120 balls of more than 3 px. */
const BALL_TO_BALL = 0.15;
/** Chance that what looks like a ball casts no such shadow, and what it shows then: hats, patches of light and shade, balls in the shade of a tree. */
const OTHERWISE = 0.25;
const NO_SHADOW: ShadowDepth = { share: 0.1, sd: 0.4 };
/** Depths that are weighed. */
const DEEPEST = 0.8;
const STEPS = 40;

const density = (seen: ShadowDepth, { share, sd }: ShadowDepth): number => {
  const variance = seen.sd * seen.sd + sd * sd;
  return Math.exp(-((seen.share - share) ** 2) / (2 * variance)) / Math.sqrt(variance);
};

/** ln of the density of all depths `seen` in a picture of which shadows are as `common`. */
const lnDensityOf = (seen: readonly ShadowDepth[], common: ShadowDepth): number => {
  let sum = 0;
  for (const one of seen)
    sum += Math.log((1 - OTHERWISE) * density(one, common) + OTHERWISE * density(one, NO_SHADOW) + 1e-9);
  return sum;
};

/** How deep shadows are in a picture whose balls show the depths `seen`, each to its own standard deviation; some of them may be no balls. ANY_DEPTH of none. */
export const pooledDepth = (seen: readonly ShadowDepth[]): ShadowDepth => {
  if (seen.length === 0) return ANY_DEPTH;
  const steps = Array.from({ length: STEPS + 1 }, (_, k) => (DEEPEST * k) / STEPS);
  const lns = steps.map((share) => lnDensityOf(seen, { share, sd: BALL_TO_BALL }));
  const most = Math.max(...lns);
  let [total, first, second] = [0, 0, 0];
  for (let k = 0; k <= STEPS; k++) {
    const weight = Math.exp(lns[k]! - most);
    total += weight;
    first += weight * steps[k]!;
    second += weight * steps[k]! ** 2;
  }
  const share = first / total;
  return { share, sd: Math.sqrt(Math.max(0, second / total - share * share) + BALL_TO_BALL ** 2) };
};

/** Information, in shares of what was known before, below which a picture says nothing. */
const LEAST_LEARNED = 0.05;
/** Texture makes a fit's cells tell so many times less than they seem to. */
const TEXTURE = 3;

/**
 * The depth that a picture alone shows, when a fit on lawn of brightness `lawn` (grey levels) that started from `before` ended with the coefficient `coefficient` for
 * the shadow, of variance `variance`: what it started from is taken out again. Null when it learned next to nothing.
 */
export const seenDepth = (
  coefficient: number,
  variance: number,
  lawn: number,
  before: ShadowDepth,
): ShadowDepth | null => {
  const after = (lawn * lawn) / variance;
  const held = 1 / (before.sd + 1 / lawn) ** 2;
  const own = after - held;
  if (!(own > LEAST_LEARNED * held)) return null;
  const share = ((-coefficient / lawn) * after - before.share * held) / own;
  return { share, sd: Math.sqrt(TEXTURE / own) };
};

/** What is no ball shows no shadow of its own, give or take this much. */
const NONE: ShadowDepth = { share: 0, sd: 0.35 };
/**
 * Chance that a ball shows none, since it lies in shade itself or its shadow on a darker patch, and that another thing shows one like a ball's. Counted in the rendered pictures: 17 of 216
 * balls show less than half of what the others do, 5 of 29 other things as much.
 */
const BALL_WITHOUT = 0.06;
const OTHER_WITH = 0.2;

/** ln odds for a ball of what a place shows to cast a shadow of depth `seen`, in a picture in which balls' shadows are `known`. */
export const shadowOdds = (seen: ShadowDepth | null, known: ShadowDepth): number => {
  if (seen === null) return 0;
  const cast = density(seen, known);
  const none = density(seen, NONE);
  const ball = (1 - BALL_WITHOUT) * cast + BALL_WITHOUT * none;
  const other = OTHER_WITH * cast + (1 - OTHER_WITH) * none;
  return Math.log((ball + 1e-9) / (other + 1e-9));
};
