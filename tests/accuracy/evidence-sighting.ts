import { readFileSync } from 'node:fs';
import { parseMarks } from '../../server/contract/parse.ts';
import type { Sighting } from '../../server/contract/sight.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { readSighting } from '../../server/reading/read-sighting.ts';
import type { Fixture } from './fixtures.ts';

/** One ball of a sighting and its truth, metres. */
export type SightedBall = {
  readonly colour: string;
  readonly error: number;
  readonly sd: number;
  readonly firm: boolean;
  readonly wrong: boolean;
};

/** How one sighting compares with its truth. Balls near the line (1 m) count. */
export type SightingScore = {
  readonly name: string;
  readonly asked: number;
  readonly balls: readonly SightedBall[];
  /** Firm calls on balls that are not in the picture. */
  readonly falseFirm: number;
};

/** A sighting is about balls this near to its line, metres. */
const NEAR = 1;

/** Compares a sighting with the truth of its picture. */
export const compareSighting = (answer: Sighting, { name, truth }: Fixture): SightingScore => {
  const near = truth.balls.filter(({ beyond_mm, in_frame }) => in_frame && Math.abs(beyond_mm) < NEAR * 1000);
  const balls = near.flatMap(({ colour, beyond_mm }): SightedBall[] => {
    const called = answer.balls.find((ball) => ball.colour === colour);
    if (!called) return [];
    const beyond = beyond_mm / 1000 - BALL_RADIUS;
    const firm = called.lies !== 'tooClose';
    const wrong = firm && (called.lies === 'beyond') !== beyond > 0;
    return [{ colour, error: called.beyond - beyond, sd: called.sd, firm, wrong }];
  });
  const falseFirm = answer.balls.filter(
    ({ colour, lies }) =>
      lies !== 'tooClose' && !truth.balls.some((ball) => ball.colour === colour && ball.in_frame),
  ).length;
  return { name, asked: near.length, balls, falseFirm };
};

/** Reads a sighting fixture and compares it. */
export const sightFixture = async (fixture: Fixture): Promise<SightingScore> => {
  const photo = await openPhoto(readFileSync(fixture.photo));
  return compareSighting(readSighting(photo, parseMarks(fixture.marks)), fixture);
};
