import { tableOf, valueAt } from './table.ts';

/** Sunlight on a facing surface over the light of the whole sky in the open: 4 is a clear day's middle value. From memory. */
const SUN_TO_SKY = 4;
/** Exponent of the common tone curves (IEC 61966-2-1, as one power). */
const TONE = 1 / 2.2;
/** Light that comes up from the lawn over that of the whole sky: grass reflects about a tenth of what one sees by, and in the sun it is lit some three times as much. From memory. */
const FROM_BELOW = 0.1;
const FROM_BELOW_SUNNY = 0.3;
/** Steps of the tables; the straight line between two is exact to 10⁻⁴. */
const STEPS = 256;

const LIT_SCALE = 1 / ((1 + SUN_TO_SKY) ** TONE - 1);
const LIT = tableOf(STEPS, (facing) => ((1 + SUN_TO_SKY * facing) ** TONE - 1) * LIT_SCALE);

/** What sunlight adds where its angle to the surface has the cosine `facing`, 0 to 1, after the tone curve: 1 when it falls straight on. */
export const litAt = (facing: number): number => valueAt(LIT, facing);

/** What sky and lawn add to the brightness of an upright surface, by the height of the normal from −1 (0 in the table) to 1, where `below` comes up from the lawn. */
const skyTable = (below: number): Float64Array =>
  tableOf(STEPS, (share) => {
    const nz = 2 * share - 1;
    return ((1 + nz + below * (1 - nz)) / (1 + below)) ** TONE - 1;
  });
const SKY = skyTable(FROM_BELOW);
const SKY_SUNNY = skyTable(FROM_BELOW_SUNNY);

/**
 * What the light of sky and lawn adds to the brightness of an upright surface where the normal has the height `nz`, −1 to 1, as a share of it after the tone curve. In a sunny picture the angle of
 * the sun to the surface has the cosine `facing`, 0 in the shade: where it shines, the sky matters less, by the tone curve's slope.
 */
export const skyAt = (nz: number, facing?: number): number => {
  if (facing === undefined) return valueAt(SKY, (1 + nz) / 2);
  const slope = (1 + litAt(facing) / LIT_SCALE) / (1 + SUN_TO_SKY * facing);
  return slope * valueAt(SKY_SUNNY, (1 + nz) / 2);
};

/** Share of the lawn's brightness that goes with a share of its light. */
const DARK = tableOf(STEPS, (hidden) => 1 - (1 - hidden) ** TONE);

/** The sky's share of the light on open lawn, where a cast shadow, which the sky alone lights, takes the share `depth` of its brightness. */
export const skyShare = (depth: number): number => (1 - Math.max(0, Math.min(1, depth))) ** (1 / TONE);

/**
 * Share of its brightness that the lawn loses, after the tone curve, where a ball hides the share `hidden` of the sky, which is the share `sky` of all light: 1 without a sun. Where the share
 * `shadow` of the sun is hidden as well, what is lost besides the sun's own, whose cast shadow takes `depth`.
 */
export const darkUnder = (hidden: number, sky = 1, shadow = 0, depth = 0): number =>
  (1 - shadow) * valueAt(DARK, hidden * sky) + shadow * (1 - depth) * valueAt(DARK, hidden);
