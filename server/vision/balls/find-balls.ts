import type { Camera } from '../../camera/types.ts';
import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import type { Court } from '../../lawn/court.ts';
import { imagePoint } from '../../units/points.ts';
import type { BallSighting, Raster } from '../types.ts';
import { colourChances } from './assign-colours.ts';
import type { BallView } from './ball-view.ts';
import { findCandidates } from './candidates.ts';
import { colourRatios, lnBallDensities, lnClutterDensity } from './colour-model.ts';
import { type OutlineEvidence, outlineEvidence } from './evidence.ts';
import { type FitWorkspace, makeWorkspace } from './fit-workspace.ts';
import { type LawnColour, lawnColour } from './lawn-colour.ts';
import { fitOutline, type OutlineFit, TYPICAL_BLUR, TYPICAL_COLOUR_BLUR } from './outline-fit.ts';
import { cutPatch } from './patch.ts';
import { lawnSpans } from './search-scale.ts';
import type { Sun } from './shading.ts';
import { type SievedCandidate, sieveCandidate } from './sieve.ts';

export type FindOptions = {
  /** Colours that are looked for. */
  readonly colours: readonly BallColour[];
};

export type Judged = {
  view: BallView;
  fit: OutlineFit;
  evidence: OutlineEvidence;
  lnOdds: Float64Array;
  chances?: Float64Array;
};

const MOST_SIEVED = 600;
const MOST_FITTED = 40;

const sieve = (
  raster: Raster,
  camera: Camera,
  candidates: ReturnType<typeof findCandidates>,
): SievedCandidate[] => {
  const sieved: { key: number; q: SievedCandidate }[] = [];
  for (const c of candidates.slice(0, MOST_SIEVED)) {
    const q = sieveCandidate(raster, camera, c);
    if (q) sieved.push({ key: (q.roundness * q.contrast) / (q.contrast + 2), q });
  }
  sieved.sort((a, b) => b.key - a.key);
  const kept: SievedCandidate[] = [];
  for (const { q } of sieved) {
    if (kept.length >= MOST_FITTED) break;
    if (kept.some((k) => Math.hypot(k.view.x - q.view.x, k.view.y - q.view.y) < 0.6 * q.view.radius))
      continue;
    kept.push(q);
  }
  return kept;
};

export const judge = (
  raster: Raster,
  view: BallView,
  sun: Sun | null,
  lawn: LawnColour,
  space: FitWorkspace,
  steps: number,
): Judged | null => {
  const patch = cutPatch(raster, view);
  const fit = fitOutline(
    patch,
    view,
    { sun, blur: TYPICAL_BLUR, colourBlur: TYPICAL_COLOUR_BLUR, steps },
    space,
  );
  if (!fit) return null;
  const evidence = outlineEvidence(patch, view, fit, lawn, space);
  const ratios = colourRatios(fit.ball, fit.lawn, lawn);
  const clutter = lnClutterDensity(ratios[0]!);
  const lnOdds = lnBallDensities(ratios).map(
    (v) => v - clutter + evidence.round + evidence.size + evidence.ground + Math.log(1 / 40),
  );
  return { view, fit, evidence, lnOdds };
};

export const searchBalls = (raster: Raster, camera: Camera, court: Court, options: FindOptions): Judged[] => {
  const spans = lawnSpans(camera, court);
  if (!spans) return [];
  const lawn = lawnColour(raster, spans);
  const space = makeWorkspace();
  const judged: Judged[] = [];
  for (const { view } of sieve(raster, camera, findCandidates(raster, camera, spans))) {
    const j = judge(raster, view, null, lawn, space, 8);
    if (j) judged.push(j);
  }
  const kept: Judged[] = [];
  judged.sort((a, b) => Math.max(...b.lnOdds) - Math.max(...a.lnOdds));
  for (const j of judged)
    if (!kept.some((k) => Math.hypot(k.fit.x - j.fit.x, k.fit.y - j.fit.y) < 0.8 * j.view.radius))
      kept.push(j);
  const C = BALL_COLOURS.length;
  const flat = new Float64Array(kept.length * C);
  kept.forEach((k, i) => flat.set(k.lnOdds, i * C));
  const present = BALL_COLOURS.map((c) => (options.colours.includes(c) ? 0.95 : 0.3));
  const chances = colourChances(flat, C, present);
  kept.forEach((k, i) => {
    k.chances = chances.slice(i * C, (i + 1) * C);
  });
  return kept;
};

export const findBalls = (
  raster: Raster,
  camera: Camera,
  court: Court,
  options: FindOptions,
): BallSighting[] => {
  const kept = searchBalls(raster, camera, court, options);
  const out: BallSighting[] = [];
  BALL_COLOURS.forEach((colour, c) => {
    if (!options.colours.includes(colour)) return;
    let best: Judged | null = null;
    for (const k of kept) if (k.chances![c]! > (best ? best.chances![c]! : 0.5)) best = k;
    if (best)
      out.push({
        colour,
        image: imagePoint(best.fit.x + best.view.centreDx, best.fit.y + best.view.centreDy),
        covariance: { xx: best.fit.xx, xy: best.fit.xy, yy: best.fit.yy },
        confidence: best.chances![c]!,
        visible: best.evidence.visible,
      });
  });
  return out;
};
