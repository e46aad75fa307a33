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
  const sun = findSun(raster, solved.camera, uprightsOf(hoops, peg));
  if (sun === null) return { hoops, peg, sun };
  const again = (found: Landmark): Start => ({ near: standing(found), reach: AGAIN });
  return {
    hoops: hoops.map(({ hoop, found }) => ({
      hoop,
      found: (found && hoopAt(hoop, again(found), sun)) ?? found,
    })),
    peg: (peg && pegAt(again(peg), sun)) ?? peg,
    sun,
  };
};
