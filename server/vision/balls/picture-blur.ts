/** Blur of edges in a picture, px (one standard deviation of the blur): of luma, and what colour has on top of it; and the spreads of the logarithms of both from ball to ball. */
export type PictureBlur = {
  readonly luma: number;
  readonly colour: number;
  readonly lnLumaSd: number;
  readonly lnColourSd: number;
};

/** A phone's after demosaicing, sharpening, noise reduction and halved colour, of whichever picture. Common practice, no source; each fit corrects it. */
export const ANY_BLUR: PictureBlur = { luma: 0.75, colour: 1.3, lnLumaSd: 0.3, lnColourSd: 0.4 };

/**
 * Spread of ln blur about the picture's, from ball to ball: the lens is softer at its edge, and so is a moving ball. Fits that start from it spread by 0.14 (luma) and 0.15 (colour), counted
 * on 312 balls. A narrower one (0.14) lets small fits settle on shadows: firm calls went wrong.
 */
const LN_LUMA_SD = 0.2;
const LN_COLOUR_SD = 0.3;

/** What a picture's blur is by the balls that are sure, which have `fits`. ANY_BLUR's middle counts as one ball. */
export const pooledBlur = (
  fits: readonly { readonly blur: number; readonly colourBlur: number }[],
): PictureBlur => {
  const mean = (values: readonly number[], any: number): number =>
    Math.exp(values.reduce((sum, value) => sum + Math.log(value), Math.log(any)) / (values.length + 1));
  if (fits.length === 0) return ANY_BLUR;
  return {
    luma: mean(
      fits.map(({ blur }) => blur),
      ANY_BLUR.luma,
    ),
    colour: mean(
      fits.map(({ colourBlur }) => colourBlur),
      ANY_BLUR.colour,
    ),
    lnLumaSd: LN_LUMA_SD,
    lnColourSd: LN_COLOUR_SD,
  };
};
