import { type Band, contrast, fitBand, type ProfilePoints } from './fit-band.ts';
import { emptyPoints, flankPixels, type SideView, takePoints } from './side-view.ts';
import { smoothCourse } from './smooth-course.ts';

/** Band fits at the stations of a side. Struct of arrays; a station whose fit failed has an infinite `sd`. */
export type StationFits = {
  /** Middle of the band, px outward of the profiles' zero; its standard deviation from the fit alone. */
  readonly middle: Float64Array;
  readonly sd: Float64Array;
  /** Paint above grass, its standard deviation, light of the grass, and scatter of a pixel about the model. */
  readonly contrast: Float64Array;
  readonly contrastSd: Float64Array;
  readonly grass: Float64Array;
  readonly noise: Float64Array;
};

/** Width and blur of the band at a station, px; shapes come one for each station. */
export type BandShape = { readonly width: number; readonly blur: number };

/** A fit may move this far (px) from where the whole line was located. */
const REACH = 2.5;
/** How far from the located line a fit is started besides on it, px. */
const STARTS = [0, -1, 1] as const;

/**
 * Fits the band at every station of `view`, its width and blur given by `shapes`. A second pass starts every fit on the smooth course of the
 * first, so that no station stays on a stray bright edge beside its neighbours' line.
 */
export const fitStations = (view: SideView, shapes: readonly BandShape[]): StationFits => {
  const { count } = view.stations;
  const row = () => new Float64Array(count);
  const fits: StationFits = {
    middle: row(),
    sd: row().fill(Number.POSITIVE_INFINITY),
    contrast: row(),
    contrastSd: row(),
    grass: row(),
    noise: row(),
  };
  const points = emptyPoints(view.profiles.bins);
  for (let k = 0; k < count; k++) bestOf(view, k, shapes[k]!, STARTS, points, fits);
  const course = smoothCourse(stationPlaces(view), fits.middle, fits.sd);
  if (course)
    for (let k = 0; k < count; k++)
      if (Math.abs(fits.middle[k]! - course.value[k]!) > 0.5 || !Number.isFinite(fits.sd[k]!))
        bestOf(view, k, shapes[k]!, [course.value[k]!], points, fits);
  return fits;
};

/** Places of the stations along the side in the picture, 0 to 1. */
export const stationPlaces = (view: SideView): Float64Array =>
  shares(view.stations.middle, view.curve.count - 1);

const shares = (values: ArrayLike<number>, whole: number): Float64Array => {
  const share = new Float64Array(values.length);
  for (let k = 0; k < share.length; k++) share[k] = values[k]! / whole;
  return share;
};

const bestOf = (
  view: SideView,
  k: number,
  shape: BandShape,
  starts: readonly number[],
  points: ProfilePoints,
  fits: StationFits,
): void => {
  let least = Number.POSITIVE_INFINITY;
  const flank = flankPixels(view.curve.across[view.stations.middle[k]!]!);
  fits.sd[k] = Number.POSITIVE_INFINITY;
  for (const start of starts) {
    takePoints(view.profiles, k, start, shape.width / 2 + flank, points);
    const fit = fitBand(points, startBand(shape, start), REACH);
    // Only a band brighter than its grass is paint.
    if (!fit || contrast(fit.band) <= 0 || fit.noise >= least) continue;
    least = fit.noise;
    fits.middle[k] = fit.band.middle;
    fits.sd[k] = fit.middleSd;
    fits.contrast[k] = contrast(fit.band);
    fits.contrastSd[k] = fit.contrastSd;
    fits.grass[k] = (fit.band.inner + fit.band.outer) / 2;
    fits.noise[k] = fit.noise;
    // A fit close to its start needs no other.
    if (Math.abs(fit.band.middle - start) < 0.7) break;
  }
};

const startBand = ({ width, blur }: BandShape, middle: number): Band => ({
  inner: 0,
  paint: 0,
  outer: 0,
  middle,
  width,
  blur,
});
