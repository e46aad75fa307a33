/** 97.5 % point of the normal distribution (NIST/SEMATECH e-Handbook, 1.3.6.7.1): "give or take" covers 19 readings in 20. */
export const NINETEEN_IN_TWENTY = 1.96;

/** Half width of the band that covers 19 in 20, metres, for a standard deviation in metres. */
export const giveOrTake = (sd: number): number => NINETEEN_IN_TWENTY * sd;

/**
 * A probability as people say it: "99 in 100", "more than 999 in 1000", "less than 1 in 1000". Never rounded up to certainty: 0.9996 is
 * "more than 999 in 1000".
 */
export const chance = (probability: number): string => {
  if (probability > 0.999) return 'more than 999 in 1000';
  if (probability < 0.001) return 'less than 1 in 1000';
  if (probability >= 0.99 || probability < 0.01) return `${Math.floor(probability * 1000)} in 1000`;
  return `${Math.round(probability * 100)} in 100`;
};
