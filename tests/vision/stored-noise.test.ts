import { describe, expect, it } from 'vitest';
import type { StoredBlocks, StoredChannel } from '../../server/units/raster.ts';
import { storedNoise } from '../../server/vision/balls/stored-noise.ts';

const channel = (step: number, sample = 1): StoredChannel => ({
  steps: new Float64Array(64).fill(step),
  sample: [sample, sample],
  origin: [0, 0],
});
const blocks = (luma: number, colour: number, sample = 2): StoredBlocks => [
  channel(luma),
  channel(colour, sample),
  channel(colour, sample),
];

describe('the noise that rounding the blocks of a stored photo makes', () => {
  it('is step² / 12 in each cell where a ball has more in every cosine (uniform quantization), and four times that where a sample covers four cells', () => {
    const noise = storedNoise(blocks(1, 1), 3, 0.7, 1.2, 1);
    expect(noise.luma).toBeCloseTo(1 / 12, 3);
    expect(noise.colour).toBeCloseTo(4 / 12, 2);
  });

  it('grows as the square of small steps, and not beyond what a ball has in a cosine', () => {
    const of = (step: number): number => storedNoise(blocks(step, step), 2.5, 0.8, 1.3, 1).luma;
    expect(of(4) / of(2)).toBeCloseTo(4, 1);
    expect(of(4000)).toBeLessThan(1.01 * of(2000));
    expect(of(4000)).toBeGreaterThan(of(40));
  });

  it('is smaller in cells that are means of several px', () => {
    const fine = storedNoise(blocks(20, 20), 12, 0.8, 1.3, 1);
    const coarse = storedNoise(blocks(20, 20), 12, 0.8, 1.3, 2);
    expect(coarse.luma).toBeCloseTo(fine.luma / 4, 9);
  });

  it('takes the coarser of both colours', () => {
    const [luma, fine] = blocks(5, 5);
    const coarse = channel(40, 2);
    const both = (b: StoredChannel, r: StoredChannel): number =>
      storedNoise([luma, b, r], 3, 0.8, 1.3, 1).colour;
    expect(both(coarse, fine)).toBe(both(coarse, coarse));
    expect(both(fine, coarse)).toBe(both(coarse, coarse));
    expect(both(fine, fine)).toBeLessThan(both(coarse, coarse) / 4);
  });

  it('is nothing where nothing is known', () => {
    expect(storedNoise(null, 3, 0.8, 1.3, 1)).toEqual({ luma: 0, colour: 0 });
  });
});
