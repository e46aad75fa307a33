import type { Camera } from '../camera/types.ts';
import { BALL_COLOURS, type BallColour } from '../lawn/colours.ts';
import type { Court } from '../lawn/court.ts';
import { imagePoint } from '../units/points.ts';
import type { Raster } from '../units/raster.ts';
import { colourChances } from '../vision/balls/assign-colours.ts';
import { type ColourRatio, colourRatios, lnBallDensities } from '../vision/balls/colour-model.ts';
import { judgeCandidates } from '../vision/balls/find-balls.ts';
import type { JudgedBall } from '../vision/balls/judge-ball.ts';
import { lawnColour } from '../vision/balls/lawn-colour.ts';
import { lawnSpans } from '../vision/balls/search-scale.ts';
import { sightingOf } from '../vision/balls/sighting-of.ts';
import type { BallSighting } from '../vision/types.ts';
import { onPeg } from './sight-choice.ts';
import { withoutShoes } from './sighting-legs.ts';

const COLOURS = BALL_COLOURS.length;

/** How the balls of one picture are lit against the lawn: ln of their brightness over the usual, ln of their blueness besides, and how likely that is beforehand. */
type Light = { readonly dim: number; readonly blue: number; readonly weight: number };

/**
 * Against the sun every ball shows its dark side, lit by the sky alone, while the lawn lies in the sun: an open sky gives about a third of the sun's light (ln −1.2) and
 * twice its share of blue. From memory; the spread is wide.
 */
const DIM = { from: -1.6, to: 0.4, step: 0.4, mean: -0.3, sd: 0.6 } as const;
const BLUE = { from: 0, to: 0.75, step: 0.25, byDim: -0.4, sd: 0.2 } as const;

const bell = (z: number): number => Math.exp(-0.5 * z * z);

const lights = (): Light[] => {
  const all: Light[] = [];
  for (let dim = DIM.from; dim <= DIM.to + 1e-9; dim += DIM.step)
    for (let blue = BLUE.from; blue <= BLUE.to + 1e-9; blue += BLUE.step)
      all.push({
        dim,
        blue,
        weight: bell((dim - DIM.mean) / DIM.sd) * bell((blue - BLUE.byDim * dim) / BLUE.sd),
      });
  return all;
};

/**
 * Which balls are on the lawn in view: those of the game alone, or those of another game as well. A colour that was not asked for is hardly ever there on its own: all
 * four of the other game are or none.
 */
const LAWNS = [
  { weight: 0.85, asked: 0.9, others: 0.004 },
  { weight: 0.15, asked: 0.9, others: 0.6 },
] as const;

/** Sum over every way to give colours to candidates of the product of their odds: how well a light and a lawn explain the picture. */
const evidenceOf = (odds: Float64Array, candidates: number): number => {
  let weights = new Float64Array(1 << COLOURS);
  weights[0] = 1;
  for (let i = 0; i < candidates; i++) {
    const next = weights.slice();
    for (let s = 0; s < weights.length; s++)
      for (let c = 0; c < COLOURS; c++)
        if (!(s & (1 << c))) next[s | (1 << c)] = next[s | (1 << c)]! + weights[s]! * odds[i * COLOURS + c]!;
    weights = next;
  }
  return weights.reduce((sum, weight) => sum + weight, 0);
};

type Coloured = { readonly ball: JudgedBall; readonly ratios: ColourRatio[]; readonly usual: Float64Array };

const inLight = ({ dim, blue }: Light, ratios: readonly ColourRatio[]): ColourRatio[] =>
  ratios.map(([r, g, b]) => [r - dim, g - dim, b - dim - blue]);

/** ln odds of every candidate (rows) to be each colour when the balls are lit so. */
const oddsIn = (light: Light, candidates: readonly Coloured[]): Float64Array => {
  const out = new Float64Array(candidates.length * COLOURS);
  candidates.forEach(({ ball, ratios, usual }, i) => {
    const lit = lnBallDensities(inLight(light, ratios), ball.view.radius);
    for (let c = 0; c < COLOURS; c++) out[i * COLOURS + c] = ball.lnOdds[c]! + lit[c]! - usual[c]!;
  });
  return out;
};

/** Largest ln of odds that is raised to a power of e. */
const MOST = 60;

const chancesOf = (candidates: readonly Coloured[], asked: readonly BallColour[]): Float64Array => {
  const sums = new Float64Array(candidates.length * COLOURS);
  let total = 0;
  for (const light of lights()) {
    const lnOdds = oddsIn(light, candidates);
    for (const lawn of LAWNS) {
      const present = BALL_COLOURS.map((colour) => (asked.includes(colour) ? lawn.asked : lawn.others));
      const absent = present.reduce((product, chance) => product * (1 - chance), 1);
      const odds = lnOdds.map((ln, i) => {
        const chance = present[i % COLOURS]!;
        return (chance / (1 - chance)) * Math.exp(Math.min(MOST, ln));
      });
      const weight = light.weight * lawn.weight * absent * evidenceOf(odds, candidates.length);
      const chances = colourChances(lnOdds, COLOURS, present);
      for (let i = 0; i < sums.length; i++) sums[i] = sums[i]! + weight * chances[i]!;
      total += weight;
    }
  }
  return sums.map((sum) => sum / total);
};

/** A named ball with its apparent diameter, px (geometric mean of both axes), as the picture alone shows it, and what the fit says of its standard deviation. */
export type NamedBall = BallSighting & { readonly diameter: number; readonly diameterSd: number };

const named = ({ ball }: Coloured, colour: BallColour, chance: number): NamedBall => ({
  ...sightingOf(ball, colour, chance),
  diameter: 2 * (ball.view.radius + ball.fit.radiusOffset),
  diameterSd: 2 * ball.fit.radiusSd,
});

/** A ball is reported from this chance on, which is also that of a firm call: a ball under another's name would be metres off, and a missing one is soon tapped. */
const LEAST_CHANCE = 0.9;

/**
 * The balls of a picture along the line, at most one of each asked colour. All balls of one picture are lit alike, and the balls of one game lie there together: how they are lit and
 * whether another game is on the lawn is told by all of them together. What a person's leg stands on is left out, for it may be a shoe, and so is what lies on the peg.
 */
export const nameSightedBalls = (
  raster: Raster,
  camera: Camera,
  court: Court,
  asked: readonly BallColour[],
): NamedBall[] => {
  const spans = lawnSpans(camera, court);
  if (spans === null) return [];
  const lawn = lawnColour(raster, spans);
  const offPeg = ({ fit, view }: JudgedBall): boolean =>
    !onPeg(camera, court, imagePoint(fit.x + view.centreDx, fit.y + view.centreDy));
  const candidates = withoutShoes(raster, judgeCandidates(raster, camera, court))
    .filter(offPeg)
    .map((ball): Coloured => {
      const ratios = colourRatios(ball.fit.ball, ball.fit.lawn, lawn);
      return { ball, ratios, usual: lnBallDensities(ratios, ball.view.radius) };
    });
  const chances = chancesOf(candidates, asked);
  return asked.flatMap((colour) => {
    const c = BALL_COLOURS.indexOf(colour);
    const chanceOf = (i: number): number => chances[i * COLOURS + c]!;
    const [best] = candidates.map((_, i) => i).sort((a, b) => chanceOf(b) - chanceOf(a));
    if (best === undefined || chanceOf(best) <= LEAST_CHANCE) return [];
    return [named(candidates[best]!, colour, chanceOf(best))];
  });
};
