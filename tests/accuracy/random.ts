/** A seeded generator of numbers in [0, 1): mulberry32, 32 bits of state (public domain algorithm by T. Ettinger, written anew). */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
};

/** A standard normal number (Box–Muller). */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** A number between `low` and `high`. */
export const between = (random: () => number, low: number, high: number): number =>
  low + (high - low) * random();
