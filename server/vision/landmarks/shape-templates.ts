import type { Camera } from '../../camera/types.ts';
import { CHANNEL_COUNT, type Patch, sampleCount } from './patch.ts';
import { coverRod, seeRod } from './rod.ts';
import type { Shape } from './shapes.ts';

/** Blur of a phone picture as a Gaussian, px, and what halved and smoothed colours have on top of it: priors of the natural logarithms. Common practice, no source. */
export const BLUR = { mean: Math.log(0.9), sd: 0.35, least: 0.4, most: 3 } as const;
export const COLOUR_BLUR = { mean: Math.log(1.2), sd: 0.4, least: 0.3, most: 4 } as const;

/** What a shape looks like in one channel at some parameters. */
export type Templates = {
  /** Coverage of each layer, 0 to 1 a sample, then the shading across each layer when it is fitted. */
  readonly layers: readonly Float64Array[];
  /** What the shape hides of ground that is not grass; null where all is grass. */
  readonly hides: Float64Array | null;
};

/** Blurs of the channels in px; samples that are means of blocks are blurred by the block too. */
const blursOf = (parameters: ArrayLike<number>, own: number, step: number): readonly [number, number] => {
  const box = step / Math.sqrt(12);
  const light = Math.hypot(Math.exp(parameters[own]!), box);
  return [light, Math.hypot(light, Math.exp(parameters[own + 1]!))];
};

const hiddenBy = (cover: readonly Float64Array[], ground: Float64Array | undefined): Float64Array | null => {
  if (!ground) return null;
  const out = new Float64Array(ground.length);
  for (const layer of cover) for (let i = 0; i < out.length; i++) out[i]! += layer[i]! * ground[i]!;
  return out;
};

/** A shadow darkens what is not hidden by the thing itself, in proportion to its tone. */
const castOn = (
  shadow: Float64Array,
  solid: readonly Float64Array[],
  tone: Float64Array | undefined,
): void => {
  for (let i = 0; i < shadow.length; i++) {
    if (shadow[i] === 0) continue;
    const hidden = solid.reduce((sum, layer) => sum + layer[i]!, 0);
    shadow[i] = shadow[i]! * Math.max(0, 1 - hidden) * (tone?.[i] ?? 1);
  }
};

/** Draws `shape` in every channel. `parameters`: the shape's own, then the logarithms of both blurs. */
export const drawShape = (
  camera: Camera,
  shape: Shape,
  patch: Patch,
  parameters: ArrayLike<number>,
): Templates[] => {
  const count = shape.layers * (shape.shaded ? 2 : 1);
  const layers = Array.from({ length: CHANNEL_COUNT }, () =>
    Array.from({ length: count }, () => new Float64Array(sampleCount(patch))),
  );
  const blurs = blursOf(parameters, shape.start.length, patch.step);
  for (const rod of shape.rods(parameters)) {
    const seen = seeRod(camera, rod);
    if (seen === null) continue;
    const covers = layers.map((channel, c) => ({
      sigma: blurs[c]!,
      out: channel[rod.layer]!,
      shade: shape.shaded ? channel[shape.layers + rod.layer] : undefined,
    }));
    coverRod(seen, patch, covers);
  }
  return layers.map((channel, c) => {
    const solid = channel.slice(0, shape.layers).filter((_, layer) => layer !== shape.shadow);
    const hides = hiddenBy(solid, patch.hidden?.[c]);
    if (shape.shadow !== undefined) castOn(channel[shape.shadow]!, solid, patch.tone?.[c]);
    return { layers: channel, hides };
  });
};
