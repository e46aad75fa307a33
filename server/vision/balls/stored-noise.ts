import type { StoredBlocks, StoredChannel } from '../../units/raster.ts';

/** Samples along a block's side and in it. */
const SIDE = 8;
const BLOCK = SIDE * SIDE;

/**
 * Variance of what rounding a stored photo's blocks added to one cell of luma and of the colour differences (the coarser of both), as it counts for a ball's place, where neighbours err together: grey
 * levels squared.
 */
export type StoredNoise = { readonly luma: number; readonly colour: number };

/** A photo that was not stored in blocks, or of which nothing is known. */
const NOT_STORED: StoredNoise = { luma: 0, colour: 0 };

/** Contrast of a ball to the lawn in luma and in a colour difference, grey levels: a cosine errs at most by what a ball of it has there. A strong one, from memory. */
const CONTRAST = 60;

/**
 * The noise of one channel about a ball of `radius` px whose edge is blurred by `blur` px, in cells of `cell` px. A cosine is off by anything up to half a step (variance step² / 12: Widrow and Kollár,
 * Quantization Noise, 2008), or by all a ball has in it when that is less and the step swallows it. A ball's place is told by the slopes of its edge: by the cosines in which these have their power.
 */
const channelNoise = (
  { steps, sample }: StoredChannel,
  radius: number,
  blur: number,
  cell: number,
): number => {
  const area = sample[0] * sample[1];
  const disc = (Math.PI * radius * radius) / area;
  const contrast2 = (CONTRAST * disc) ** 2 / BLOCK;
  const wide = blur * blur + (radius * radius) / 4;
  let told = 0;
  let weights = 0;
  for (let v = 0; v < SIDE; v++)
    for (let u = 0; u < SIDE; u++) {
      const f2 = (u / (2 * SIDE * sample[0])) ** 2 + (v / (2 * SIDE * sample[1])) ** 2;
      // Power of a blurred disc at this frequency: near enough that of a normal bell of its variance.
      const power = Math.exp(-4 * Math.PI * Math.PI * f2 * wide);
      const error = Math.min(steps[v * SIDE + u]! ** 2 / 12, contrast2 * power);
      told += f2 * power * error;
      weights += f2 * power;
    }
  return ((told / weights) * area) / (cell * cell);
};

/** What rounding the `blocks` of a photo adds to the cells (of `cell` px) about a ball of `radius` px; `blur` of luma's edges and the `colourBlur` of colours', px. */
export const storedNoise = (
  blocks: StoredBlocks | null | undefined,
  radius: number,
  blur: number,
  colourBlur: number,
  cell: number,
): StoredNoise => {
  if (!blocks) return NOT_STORED;
  const [luma, blue, red] = blocks;
  return {
    luma: channelNoise(luma, radius, blur, cell),
    colour: Math.max(
      channelNoise(blue, radius, colourBlur, cell),
      channelNoise(red, radius, colourBlur, cell),
    ),
  };
};
