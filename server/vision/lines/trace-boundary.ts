import type { SolvedCamera } from '../../camera/types.ts';
import { type Court, SIDES, type Side } from '../../lawn/court.ts';
import type { Metres } from '../../units/numbers.ts';
import type { Raster, TracedSide } from '../types.ts';
import { type BandBlock, bandBlocks, commonBlur, type ShapePrior } from './band-blocks.ts';
import { BELIEVED, lineEvidence } from './line-evidence.ts';
import { BLUR_PRIOR, PAINT_HEIGHT, PAINT_WIDTH_PRIOR } from './paint.ts';
import { estimatePaint, medianByLight, type PaintEstimate } from './paint-width.ts';
import { sideSamples, untraced } from './side-samples.ts';
import { type LostSide, type SideView, viewSide } from './side-view.ts';
import { smoothCourse } from './smooth-course.ts';
import { type BandShape, fitStations, type StationFits, stationPlaces } from './station-fits.ts';

/** What may be known of the paint. */
export type TraceOptions = {
  /**
   * Height of the paint that is seen, above the ground on which the balls stand, metres; `PAINT_HEIGHT` unless stated. For a string it does not count.
   */
  readonly paintHeight?: Metres;
  /** Places looked at along a side at most; all when not given. A first, rough trace needs some two dozen. */
  readonly stations?: number | undefined;
  /** Sides whose line is known to lie within a px or two of its prediction, so that it need not be searched for. */
  readonly near?: readonly Side[] | undefined;
};

/**
 * Finds the inner edge of each boundary's paint (or the middle of a string) near where `solved` predicts it. All four sides are answered, in
 * the order of `SIDES`; one that is out of the picture, not painted or hidden has share 0 and no samples. Sub-pixel: each sample comes
 * from the profile over a short run along the line, fitted by a band convolved with the picture's own blur in linear light.
 */
export const traceBoundary = (
  raster: Raster,
  solved: SolvedCamera,
  court: Court,
  options: TraceOptions = {},
): TracedSide[] => {
  const { camera, covariance } = solved;
  const task = { raster, camera, covariance, court, stations: options.stations };
  const views = SIDES.map((side) => viewSide(task, side, options.near?.includes(side)));
  const first = views.map((view) => (isFound(view) ? fitStations(view, usualShapes(view)) : null));
  const blocksUnder = (prior: ShapePrior): BandBlock[][] =>
    views.map((view, i) => (isFound(view) && first[i] ? bandBlocks(view, first[i], prior) : []));
  const usual = blocksUnder({ blur: BLUR_PRIOR, width: PAINT_WIDTH_PRIOR });
  const blur = commonBlur(usual.flat(), BLUR_PRIOR);
  const blocks = blocksUnder({ blur, width: WIDTH_OPEN });
  const paint = estimatePaint(usual.flat(), blocks.flat());
  const height = options.paintHeight ?? PAINT_HEIGHT;
  return views.map((view, i) => {
    if (!isFound(view)) return untraced(view.side, view.visibleLength);
    const shapes = measuredShapes(view, blocks[i]!, paint);
    const fits: StationFits = fitStations(view, shapes);
    const course = smoothCourse(stationPlaces(view), fits.middle, fits.sd);
    const believed = course && lineEvidence(view, course.value, shapes) > BELIEVED;
    if (!believed || faint(usual, i)) return untraced(view.side, view.curve.visibleLength);
    return sideSamples(view, fits, paint, height);
  });
};

/** A line that adds less than this share of the light that the picture's lines add is not one of them. */
const FAINT = 0.2;

/** Whether side `i` adds too little light to be marked like the others: a mowing mark or a crease, not paint. */
const faint = (blocks: readonly BandBlock[][], i: number): boolean => {
  return medianByLight(blocks[i]!) < FAINT * medianByLight(blocks.flat());
};

const isFound = (view: SideView | LostSide): view is SideView => 'curve' in view;

/** Width and blur before anything is measured. */
const usualShapes = ({ curve, stations }: SideView): BandShape[] => {
  const shapes: BandShape[] = [];
  for (let k = 0; k < stations.count; k++)
    shapes.push({
      width: PAINT_WIDTH_PRIOR.mean * curve.across[stations.middle[k]!]!,
      blur: BLUR_PRIOR.mean,
    });
  return shapes;
};

/** Any width at all, m: what is measured decides. */
const WIDTH_OPEN = { mean: PAINT_WIDTH_PRIOR.mean, sd: 0.06 } as const;
const LEAST_WIDTH = 0.05;

/** Width as the paint estimate has it at each station, and the blur of the station's stretch. */
const measuredShapes = (
  { curve, stations }: SideView,
  blocks: readonly BandBlock[],
  paint: PaintEstimate,
): BandShape[] => {
  const blurs = new Float64Array(stations.count).fill(blocks[0]?.blur ?? BLUR_PRIOR.mean);
  for (const { from, to, blur } of blocks) blurs.fill(blur, from, to);
  const shapes: BandShape[] = [];
  for (let k = 0; k < stations.count; k++) {
    const i = stations.middle[k]!;
    const width = paint.width * curve.across[i]! + paint.extra + paint.depth * Math.abs(curve.rise[i]!);
    shapes.push({ width: Math.max(LEAST_WIDTH, width), blur: blurs[k]! });
  }
  return shapes;
};
