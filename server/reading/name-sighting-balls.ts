import type { Camera } from '../camera/types.ts';
import type { BallColour } from '../lawn/colours.ts';
import type { Court } from '../lawn/court.ts';
import type { Raster } from '../units/raster.ts';
import { type NamedCandidate, namedBalls, unnamedBy } from '../vision/balls/colour-chances.ts';
import { judgeCandidates } from '../vision/balls/find-balls.ts';
import { centreOf } from '../vision/balls/fitted-ball.ts';
import type { JudgedBall } from '../vision/balls/judge-ball.ts';
import { sightingOf } from '../vision/balls/sighting-of.ts';
import type { BallSighting } from '../vision/types.ts';
import { onPeg } from './sight-choice.ts';
import { withoutShoes } from './sighting-legs.ts';

/** A named ball with its apparent diameter, px (geometric mean of both axes), as the picture alone shows it, and what the fit says of its standard deviation. */
export type NamedBall = BallSighting & { readonly diameter: number; readonly diameterSd: number };

const measured = ({ ball, colour, chance }: NamedCandidate, unnamed: readonly JudgedBall[]): NamedBall => ({
  ...sightingOf(ball, colour, chance, unnamed),
  diameter: 2 * (ball.view.radius + ball.fit.radiusOffset),
  diameterSd: 2 * ball.fit.radiusSd,
});

/** A ball is reported from this chance on; a firm call needs more. */
const LEAST_CHANCE = 0.7;

/**
 * The balls of a picture along the line, at most one of each asked colour. What a person's leg stands on is left out before the names are given, for it may be a shoe, and so is
 * what lies on the peg, whose bands have the balls' colours: either would take a ball's name.
 */
export const nameSightedBalls = (
  raster: Raster,
  camera: Camera,
  court: Court,
  asked: readonly BallColour[],
): NamedBall[] => {
  const offPeg = ({ fit, view }: JudgedBall): boolean => !onPeg(camera, court, centreOf({ view, fit }));
  const candidates = withoutShoes(raster, judgeCandidates(raster, camera, court)).filter(offPeg);
  const named = namedBalls(candidates, asked, LEAST_CHANCE);
  return named.map((one) => measured(one, unnamedBy(named, candidates)));
};
