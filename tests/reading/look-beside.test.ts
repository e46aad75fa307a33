import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { Camera } from '../../server/camera/types.ts';
import { parseMarks } from '../../server/contract/parse.ts';
import type { Court } from '../../server/lawn/court.ts';
import { beginPhoto, openPhoto } from '../../server/photo/open-photo.ts';
import { courtOf, markedPoints } from '../../server/reading/from-marks.ts';
import { lookHere } from '../../server/reading/look-ahead.ts';
import { type LookBeside, openLookBeside } from '../../server/reading/look-beside.ts';
import { readComing, readLawn } from '../../server/reading/read-lawn.ts';
import type { Raster } from '../../server/units/raster.ts';
import { judgeCandidates } from '../../server/vision/balls/find-balls.ts';
import { firstLook, LOOK_AHEAD } from '../../server/vision/balls/first-look.ts';
import { ANY_BLUR } from '../../server/vision/balls/picture-blur.ts';
import { loadFixtures } from '../accuracy/fixtures.ts';

const fixture = loadFixtures().find(({ name }) => name === 'd1-terrace')!;
const marks = parseMarks(fixture.marks);
const photo = await openPhoto(readFileSync(fixture.photo));
const { raster } = photo;
const court: Court = courtOf(marks);
const start = solveCamera({
  points: markedPoints(marks),
  court,
  width: raster.width,
  height: raster.height,
});
if (!start.ok) throw new Error(`Expected a camera but received ${start.error.message}`);
const { camera } = start.value;

/** The same picture in half the light: another look. */
const dimmed: Raster = { ...raster, data: raster.data.map((value) => value >> 1) };

describe('a first look in a second thread', () => {
  let beside: LookBeside;
  beforeAll(async () => {
    beside = openLookBeside();
    await beside.ready;
  });
  afterAll(() => beside.close());

  it('has the answer that the caller would have', () => {
    const there = beside.look(raster, camera, court).end();
    expect(there?.balls.length).toBeGreaterThanOrEqual(8);
    expect(there).toEqual(lookHere(raster, camera, court).end());
  });

  it('answers the look that is waited for, not one that was given up before', () => {
    beside.look(dimmed, camera, court);
    const there = beside.look(raster, camera, court).end();
    expect(there).toEqual(lookHere(raster, camera, court).end());
    expect(there).not.toEqual(lookHere(dimmed, camera, court).end());
  });

  it('takes no share of fits to a picture whose place another one has taken', () => {
    const former = beside.look(raster, camera, court);
    const { lawn, balls } = former.end()!;
    const work = {
      kind: 'refine',
      camera,
      court,
      lawn,
      blur: ANY_BLUR,
      sun: null,
      balls,
      around: [],
    } as const;
    const shared = former.share!(work)!;
    // Nobody takes any here, so the thread takes them all.
    expect(shared.rest().map(({ index }) => index)).toEqual(balls.map((_, index) => index));
    expect(shared.next()).toBeGreaterThan(balls.length);
    beside.look(dimmed, camera, court).end();
    expect(former.share!(work)).toBeNull();
  });

  it('begins on the rows that are there, and ends the same when the others have come', async () => {
    const expected = lookHere(raster, camera, court).end();
    const data = new Uint8Array(new SharedArrayBuffer(raster.data.length));
    const rows = Math.round(0.55 * raster.height);
    const part = 3 * raster.width * rows;
    data.set(raster.data.subarray(0, part));
    const looking = beside.look({ ...raster, data }, camera, court, rows);
    // Long enough for it to come to the rows that are not there, were it not to wait for them.
    await new Promise((resolve) => setTimeout(resolve, 300));
    data.set(raster.data.subarray(part), part);
    looking.complete();
    expect(looking.end()).toEqual(expected);
  });

  it('is there for the next picture when the rest of one never came', () => {
    beside.look(raster, camera, court, 10).giveUp();
    expect(beside.look(raster, camera, court).end()).toEqual(lookHere(raster, camera, court).end());
  });

  it('reads a photo in halves as it does whole', async () => {
    const bytes = readFileSync(fixture.photo);
    const coming = await beginPhoto(bytes, undefined, beside.decode);
    expect(await coming.upper).not.toBeNull();
    expect(await readComing(coming, marks, () => {}, beside.look)).toEqual(readLawn(photo, marks));
  });

  it('changes nothing in a reading', () => {
    expect(readLawn(photo, marks, () => {}, beside.look)).toEqual(readLawn(photo, marks));
  });
});

describe('when the second thread is not there', () => {
  it('the caller looks before it is loaded', () => {
    const beside = openLookBeside();
    expect(beside.look(raster, camera, court).end()).toEqual(lookHere(raster, camera, court).end());
    return beside.close();
  });

  it('the caller looks when it dies over a look, and ever after', async () => {
    const beside = openLookBeside(500);
    await beside.ready;
    const expected = lookHere(raster, camera, court).end();
    const answer = beside.look(raster, camera, court);
    const closed = beside.close();
    expect(answer.end()).toEqual(expected);
    await closed;
    expect(beside.look(raster, camera, court).end()).toEqual(expected);
  });
});

describe('a look ahead', () => {
  /** The marks' camera, turned about the vertical by so many px at the middle. */
  const turned = (by: number): Camera => {
    const angle = by / camera.focal;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const r = camera.rotation;
    const about = (i: number): number[] => [c * r[i]! + s * r[i + 1]!, -s * r[i]! + c * r[i + 1]!, r[i + 2]!];
    return { ...camera, rotation: [...about(0), ...about(3), ...about(6)] as unknown as Camera['rotation'] };
  };
  const placesOf = (from: Camera): string[] =>
    judgeCandidates(raster, camera, court, firstLook(raster, from, court, LOOK_AHEAD))
      .filter(({ lnOdds }) => Math.max(...lnOdds) > 4)
      .map(({ fit }) => `${Math.round(fit.x)} ${Math.round(fit.y)}`)
      .sort();

  it('from a camera some px off finds the same balls', () => {
    expect(placesOf(turned(6))).toEqual(placesOf(camera));
  });

  it('from one far off is taken again', () => {
    const far = firstLook(raster, turned(60), court, LOOK_AHEAD);
    expect(judgeCandidates(raster, camera, court, far)).toEqual(judgeCandidates(raster, camera, court));
  });
});
