import { projectPoint } from '../camera/camera-model.ts';
import { type BallScale, rollOf, type SightedMark, solveSighting } from '../camera/solve-sighting.ts';
import type { MarkedPoint, SolvedCamera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import type { Sighting } from '../contract/sight.ts';
import { InputError } from '../errors.ts';
import type { Court } from '../lawn/court.ts';
import { type HalfwayLine, halfwayLine } from '../lawn/halfway-lines.ts';
import { namedPlace, type PointName } from '../lawn/named-points.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { courtOf, type FocalPrior, focalPriorOf, markedPoints } from './from-marks.ts';
import { lineEnds, scoredPoint } from './line-ends.ts';
import { type NamedBall, nameSightedBalls } from './name-sighting-balls.ts';
import { placeInSighting } from './place-in-sighting.ts';
import { describePose } from './pose-record.ts';
import type { Progress } from './progress.ts';
import { type ChosenBall, tapped } from './sight-choice.ts';
import { nextUnmarked } from './sight-landmarks.ts';
import { type CheckedEnds, checkedEnds, checkedNotes, measuredEnds } from './sighting-ends.ts';
import { markedEnds, refuseOutside, tappedSky } from './sighting-input.ts';
import { scatterWarnings, sightingWarnings } from './sighting-warnings.ts';
import { HAND_SD, snapMarks } from './snap-marks.ts';

/** What the steps of one sighting share. */
type Job = {
  readonly photo: UprightPhoto;
  readonly marks: Marks;
  readonly court: Court;
  readonly line: HalfwayLine;
  readonly points: readonly MarkedPoint[];
  readonly ends: readonly [MarkedPoint, MarkedPoint];
  readonly checked: CheckedEnds | null;
  readonly focalPrior: FocalPrior | undefined;
};

const startJob = (photo: UprightPhoto, marks: Marks): Job => {
  const scored = scoredPoint(marks);
  const court = courtOf(marks);
  const line = halfwayLine(court, scored);
  const points = markedPoints(marks);
  refuseOutside(points, marks, photo.raster);
  const ends = markedEnds(points, lineEnds(line, scored));
  const { width, height } = photo.raster;
  return {
    photo,
    marks,
    court,
    line,
    points,
    ends,
    checked: checkedEnds(marks, ends),
    focalPrior: focalPriorOf(photo.focal35, width, height),
  };
};

const solve = (job: Job, marks: readonly SightedMark[], balls: readonly BallScale[]): SolvedCamera => {
  const { width, height } = job.photo.raster;
  const { court, focalPrior } = job;
  const named = (name: string) => marks.find(({ mark }) => mark.name === name)!.mark;
  const solved = solveSighting({
    court,
    width,
    height,
    focalPrior,
    marks,
    balls,
    measured: measuredEnds(job.checked),
    ends: [named(job.ends[0].name), named(job.ends[1].name)],
    unevenness: job.marks.lawn.unevenness,
  });
  if (!solved.ok) throw new InputError(solved.error.code, solved.error.message);
  return solved.value;
};

/** Rounds of measuring the marked things anew from a better camera. */
const SNAP_ROUNDS = 2;

const poseOfSighting = (job: Job): SightPose => {
  let marks: readonly SightedMark[] = job.points.map((mark) => ({ mark, sd: HAND_SD }));
  let solved = solve(job, marks, []);
  for (let round = 0; round < SNAP_ROUNDS; round++) {
    marks = snapMarks(job.photo.raster, solved.camera, job.court, job.points);
    solved = solve(job, marks, []);
  }
  return withUnmarked(job, { solved, marks });
};

/** The camera once the size of the balls is known too: with the height known better the marked things, the far marker above all, are looked for where they are. */
const sharpened = (job: Job, { marks }: SightPose, balls: readonly BallScale[]): SightPose => {
  const known = solve(job, marks, balls);
  const again = snapMarks(job.photo.raster, known.camera, job.court, job.points);
  const all = [...again, ...marks.slice(again.length)];
  return { solved: solve(job, all, balls), marks: all };
};

/** A sighting's camera and what it was solved from. */
type SightPose = { readonly solved: SolvedCamera; readonly marks: readonly SightedMark[] };

/** Of marks that agree the root mean square residual is below this, in their own standard deviations. */
const AGREES = 4;

/** Peg and hoops that are seen though nobody marked them tell the height of the phone, which two marks do not. One that contradicts the marks is left out. */
const withUnmarked = (job: Job, start: SightPose): SightPose => {
  const tried = new Set<PointName>();
  let pose = start;
  for (;;) {
    const found = nextUnmarked(job.photo.raster, pose.solved, job.court, pose.marks, tried);
    if (found === null) return pose;
    const marks = [...pose.marks, found];
    const solved = solve(job, marks, []);
    const own = solved.marks.find(({ name }) => name === found.mark.name)!;
    if (Math.hypot(...own.residual) <= AGREES * Math.hypot(found.sd, HAND_SD)) pose = { solved, marks };
  }
};

/** Blades hide the lowest part of every outline, and no lens draws a sharp edge: what the fit's own standard deviation of a diameter leaves out, px. */
const DIAMETER_UNSEEN = 0.4;
/** A ball tells the scale when its outline is seen nearly whole and it is sure what it is. */
const WHOLE = 0.9;

/** The sizes of the balls. What the blades hide is alike on all of them, so that many balls tell it no better than one. */
const ballScales = (seen: readonly NamedBall[]): BallScale[] => {
  const whole = seen.filter(({ visible, confidence }) => visible > WHOLE && confidence > WHOLE);
  const shared = DIAMETER_UNSEEN * Math.sqrt(whole.length);
  return whole.map(({ image, diameter, diameterSd }) => ({
    image,
    diameter,
    sd: Math.hypot(diameterSd, shared) / diameter,
  }));
};

/** Where the phone was with respect to the near end of the line. */
const describeStance = (job: Job, solved: SolvedCamera): NonNullable<Sighting['camera']> => {
  const { camera } = solved;
  const near = namedPlace(job.court, job.ends[0].name);
  const far = namedPlace(job.court, job.ends[1].name);
  const along = job.line.axis === 'y' ? 'x' : 'y';
  const at = { x: camera.position[0], y: camera.position[1] };
  const behind = (near[along] - at[along]) * Math.sign(far[along] - near[along]);
  return {
    end: job.ends[0].name,
    behind,
    aside: job.line.nextHoopSide * (at[job.line.axis] - job.line.at),
    height: camera.position[2],
    roll: (rollOf(camera) * 180) / Math.PI,
    focal: camera.focal,
    residual: solved.residual,
    rotation: [...camera.rotation],
    position: [...camera.position],
    radial: [...camera.radial],
    marks: solved.marks.map(({ name, residual }) => ({ name, residual: Math.hypot(...residual) })),
  };
};

/**
 * Reads a picture taken by hand from behind one end of the halfway line towards the other: `marks.points` holds both ends, and peg and
 * hoops where they were marked. Lengths in metres; `beyond` is measured against the line through the two marked ends. Throws `InputError`
 * when an end or the hoop scored is missing, a mark or the tap lies outside the photo, or the ends cannot be seen so from behind one of them.
 */
export const readSighting = (photo: UprightPhoto, marks: Marks, progress: Progress = () => {}): Sighting => {
  const job = startJob(photo, marks);
  progress('solve', 'Working out where the picture was taken from.');
  const pose = poseOfSighting(job);
  progress('find', 'Looking for the balls.');
  const { camera: view } = pose.solved;
  const seen = nameSightedBalls(photo.raster, view, job.court, marks.balls);
  const sightings: readonly ChosenBall[] = marks.tap ? tapped(seen, marks.tap, marks.balls) : seen;
  progress('locate', 'Measuring the balls against the line.');
  const { solved, marks: measured } = sharpened(job, pose, ballScales(seen));
  const balls = sightings.flatMap((seen) =>
    placeInSighting(solved, job.line, marks, seen, seen.origin ?? 'found'),
  );
  if (marks.tap && balls.length === 0) throw tappedSky(marks.tap);
  const camera = describeStance(job, solved);
  const farSeen = measured.find(({ mark }) => mark.name === job.ends[1].name)!.sd < HAND_SD;
  return {
    line: job.line,
    balls,
    missing: marks.balls.filter((colour) => !balls.some((ball) => ball.colour === colour)),
    camera,
    photo: { width: photo.raster.width, height: photo.raster.height },
    ...(job.checked && { checked: job.checked }),
    warnings: [
      ...sightingWarnings(camera, balls, farSeen, projectPoint(solved.camera, farPlace(job)) !== null),
      ...scatterWarnings(
        solved,
        job.ends.map(({ name }) => name),
      ),
      ...checkedNotes(marks, job.checked),
    ],
    pose: describePose(solved),
  };
};

const farPlace = (job: Job) => ({ ...namedPlace(job.court, job.ends[1].name), z: 0 });
