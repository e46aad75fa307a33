/** What a side's stations show about their errors: raggedness of the paint's middle in m, and a factor on the fits' own standard deviations. */
export type SampleNoise = { readonly ragged: number; readonly factor: number };

/** Raggedness tried, m: from a taut string to paint spilt by hand. */
const RAGGED = [0, 0.0003, 0.0006, 0.001, 0.0015, 0.002, 0.003, 0.0042, 0.006, 0.009, 0.013] as const;
/** Factors tried on the fits' standard deviations; grass is no white noise, so they may be too small, seldom too large. */
const FACTORS = [0.8, 1, 1.2, 1.5, 1.9, 2.4, 3, 4] as const;
/** Least standard deviation of a sample, px: what pixel grid and compression leave of any edge. */
const LEAST_SD = 0.03;
/** Freedom of Student's distribution that the errors are taken to have, so that people on the line do not count as raggedness. */
const FREEDOM = 4;
/** Stations whose evidence the prior is worth: raggedness is about `usual` (m), within a factor of three or so. */
const PRIOR = { sdOfLog: 1.2 } as const;

/** Standard deviation of a station's middle, px: its fit's, the paint's own raggedness seen `across` px per metre, and the pixel grid's. */
export const stationSd = (noise: SampleNoise, fitSd: number, across: number): number =>
  Math.sqrt((noise.factor * fitSd) ** 2 + (noise.ragged * across) ** 2 + LEAST_SD ** 2);

/**
 * The most likely noise for residuals (px) about a smooth course; entries that are NaN or whose `fitSd` is infinite do not count. `usual` is the raggedness
 * expected before looking; with nothing to look at it is the answer.
 */
export const estimateNoise = (
  residual: ArrayLike<number>,
  fitSd: ArrayLike<number>,
  across: ArrayLike<number>,
  usual: number,
): SampleNoise => {
  let best: SampleNoise = { ragged: usual, factor: 1 };
  if (residual.length === 0) return best;
  const better = (tries: readonly SampleNoise[]): void => {
    let most = Number.NEGATIVE_INFINITY;
    for (const noise of tries) {
      const value = likelihood(noise, residual, fitSd, across) + prior(noise, usual);
      if (value > most) {
        most = value;
        best = noise;
      }
    }
  };
  // One after the other: the two hardly compete, since a fit's error falls towards the camera and raggedness grows.
  for (let round = 0; round < 2; round++) {
    better(RAGGED.map((ragged) => ({ ...best, ragged })));
    better(FACTORS.map((factor) => ({ ...best, factor })));
  }
  return best;
};

const prior = ({ ragged, factor }: SampleNoise, usual: number): number => {
  const about = usual > 0 ? Math.log(Math.max(0.0003, ragged) / usual) / PRIOR.sdOfLog : 0;
  return -(about ** 2) / 2 - Math.log(factor) ** 2 / 2;
};

const likelihood = (
  noise: SampleNoise,
  residual: ArrayLike<number>,
  fitSd: ArrayLike<number>,
  across: ArrayLike<number>,
): number => {
  let sum = 0;
  for (let k = 0; k < residual.length; k++) {
    const r = residual[k]!;
    if (Number.isNaN(r) || !Number.isFinite(fitSd[k]!)) continue;
    const sd = stationSd(noise, fitSd[k]!, across[k]!);
    sum -= Math.log(sd) + ((FREEDOM + 1) / 2) * Math.log1p((r / sd) ** 2 / FREEDOM);
  }
  return sum;
};
