import { pointAtHeight } from '../camera/camera-model.ts';
import {
  HOOP_HEIGHT,
  HOOP_NUMBERS,
  type HoopNumber,
  hoopPlace,
  PEG_HEIGHT,
  pegPlace,
} from '../lawn/hoops.ts';
import type { PointName } from '../lawn/named-points.ts';
import { metres } from '../units/numbers.ts';
import { imagePoint, type LawnPoint } from '../units/points.ts';
import { findHoop, findPeg, type Landmark, SEARCH_REACH } from '../vision/landmarks/find-landmarks.ts';
import type { Reach } from '../vision/landmarks/find-upright.ts';
import { findSun, type Sun, type Upright } from '../vision/landmarks/shadows.ts';
import type { CheckJob } from './check-court.ts';
import { groundReach } from './snap-marks.ts';

/** What stands on the lawn, as measured, and where the sun throws its shadows. */
export type Uprights = {
  readonly hoops: readonly { readonly hoop: HoopNumber; readonly found: Landmark | null }[];
  readonly peg: Landmark | null;
  readonly sun: Sun | null;
};

/** Least distance from a hand's mark within which the thing marked is looked for, metres: the mark tells which thing, not where it stands. */
const BESIDE_MARK = 0.15;
/** And from where it was measured before its shadow was known. */
const AGAIN: Reach = { ground: metres(0.06) };
/** A shadow taken for a part of a thing moves its foot by most of its length. */
const AGAIN_IN_LINE: Reach = { ground: metres(0.28) };

type Start = { readonly near: LawnPoint; readonly reach: Reach };

/** Where the user marked the point, on the ground; the proper place when it was not marked. */
const startAt = (job: CheckJob, name: PointName, proper: LawnPoint): Start => {
  const pair = job.marks.points[name];
  const ground = pair ? pointAtHeight(job.solved.camera, imagePoint(...pair), metres(0)) : null;
  if (!ground) return { near: proper, reach: SEARCH_REACH };
  const reach = Math.max(BESIDE_MARK, groundReach(job.solved.camera, ground));
  return { near: ground, reach: { ground: metres(reach) } };
};

const standing = ({ from, fit }: Landmark): LawnPoint =>
  ({ x: from.x + fit.parameters[0]!, y: from.y + fit.parameters[1]! }) as LawnPoint;

/** Half the distance between a hoop's feet, metres: each foot throws a shadow of its own. */
const FOOT_ASIDE = 0.0555;

const uprightsOf = (hoops: Uprights['hoops'], peg: Landmark | null): Upright[] => [
  ...(peg ? [{ foot: standing(peg), height: PEG_HEIGHT }] : []),
  ...hoops.flatMap(({ found }) => {
    if (!found) return [];
    const { x, y } = standing(found);
    return [-FOOT_ASIDE, FOOT_ASIDE].map((aside) => ({
      foot: { x: x + aside, y } as LawnPoint,
      height: HOOP_HEIGHT,
    }));
  }),
];

/** Shadows that run towards the camera within so many radians (25°) look like parts of the things that throw them. */
const IN_LINE = 0.44;
/** Lengths of the shadow of one metre that are then tried, and on how many hoops, the clearest. */
const LENGTHS = [0.5, 0.7, 0.9, 1.2, 1.7] as const;
const TRIED_ON = 3;

/** Whether the shadows of most things run towards the camera, so that where a thing ends and its shadow begins cannot be seen. */
const inLine = ({ solved }: CheckJob, things: readonly Landmark[], [east, north]: Sun): boolean => {
  const [cx, cy] = solved.camera.position;
  const towards = things.filter((thing) => {
    const { x, y } = standing(thing);
    const turn = Math.atan2(cy - y, cx - x) - Math.atan2(north, east);
    return Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) < IN_LINE;
  });
  return 2 * towards.length > things.length;
};

/**
 * The sun whose shadows leave the hoops the height that hoops have. Its direction is seen; the length of a shadow in line with a hoop is not, but a hoop that takes a part of its shadow for
 * its own foot is too high.
 */
const sunByHeights = (
  hoops: Uprights['hoops'],
  [east, north]: Sun,
  measure: (hoop: HoopNumber, sun: Sun) => Landmark | null,
): Sun => {
  const clearest = hoops
    .flatMap(({ hoop, found }) => (found ? [{ hoop, evidence: found.fit.evidence }] : []))
    .sort((a, b) => b.evidence - a.evidence)
    .slice(0, TRIED_ON);
  const length = Math.hypot(east, north);
  const suns = LENGTHS.map((long): Sun => [(east / length) * long, (north / length) * long]);
  const strain = (sun: Sun): number =>
    clearest.reduce((sum, { hoop }) => sum + (measure(hoop, sun)?.fit.strain ?? UNSEEN_STRAIN) ** 2, 0);
  return suns.map((sun) => ({ sun, strain: strain(sun) })).reduce((a, b) => (b.strain < a.strain ? b : a))
    .sun;
};

/** A hoop that is lost counts as badly bent. */
const UNSEEN_STRAIN = 6;

/**
 * Measures the six hoops and the peg near their marks or proper places. When their shadows tell where the sun stands they are measured again with
 * the shadows drawn, since a shadow that starts at a foot pulls it aside.
 */
export const findUprights = (job: CheckJob): Uprights => {
  const { court, solved } = job;
  const { raster } = job.photo;
  const hoopAt = (hoop: HoopNumber, { near, reach }: Start, sun: Sun | null) =>
    findHoop(raster, solved.camera, court, hoop, reach, near, sun);
  const pegAt = ({ near, reach }: Start, sun: Sun | null) =>
    findPeg(raster, solved.camera, court, reach, near, sun);
  const hoops = HOOP_NUMBERS.map((hoop) => ({
    hoop,
    found: hoopAt(hoop, startAt(job, `hoop${hoop}`, hoopPlace(court, hoop)), null),
  }));
  const peg = pegAt(startAt(job, 'peg', pegPlace(court)), null);
  const seen = findSun(raster, solved.camera, uprightsOf(hoops, peg));
  if (seen === null) return { hoops, peg, sun: null };
  const first = hoops.flatMap(({ found }) => found ?? []);
  const blind = inLine(job, first, seen);
  const again = (found: Landmark): Start => ({
    near: standing(found),
    reach: blind ? AGAIN_IN_LINE : AGAIN,
  });
  const foundOf = (hoop: HoopNumber) => hoops.find((one) => one.hoop === hoop)!.found!;
  const sun = blind ? sunByHeights(hoops, seen, (hoop, at) => hoopAt(hoop, again(foundOf(hoop)), at)) : seen;
  return {
    hoops: hoops.map(({ hoop, found }) => ({
      hoop,
      found: (found && hoopAt(hoop, again(found), sun)) ?? found,
    })),
    peg: (peg && pegAt(again(peg), sun)) ?? peg,
    sun,
  };
};
