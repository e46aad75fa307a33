import type { Marks } from '../contract/marks.ts';
import type { Reading } from '../contract/reading.ts';
import type { DecodeHalves } from '../photo/decode-halves.ts';
import type { ComingPhoto, UprightPhoto } from '../photo/open-photo.ts';

/** A job says what it is doing: a step's name and a sentence for people. */
export type Report = (step: string, message: string) => void;

/** A photo's own bytes, as uploaded. */
type OfPhoto = { readonly photo: Uint8Array };
type OfMarks = OfPhoto & { readonly marks: Marks };

/** The last picture from the same spot, with its marks. */
type Former = OfMarks;
/** What of a reading the straightened picture needs. */
type Overhead = Pick<Reading, 'camera' | 'photo'> & { readonly marks?: Marks };

const begin = async (
  bytes: Uint8Array,
  report: Report,
  inHalves: DecodeHalves | null = null,
): Promise<ComingPhoto> => {
  report('open', 'Opening the photo.');
  const { beginPhoto } = await import('../photo/open-photo.ts');
  return beginPhoto(bytes, undefined, inHalves);
};

const open = async (bytes: Uint8Array, report: Report): Promise<UprightPhoto> =>
  (await begin(bytes, report)).photo;

/**
 * Everything that runs in a worker thread, by name: an entry adds a job. A job takes what can be cloned between threads, opens the photo itself
 * and loads what it needs when it is first asked, so that a thread holds only what it has used.
 */
export const JOBS = {
  read: async ({ photo, marks }: OfMarks, report: Report) => {
    const { lookBeside } = await import('./look-beside.ts');
    const { readComing } = await import('./read-lawn.ts');
    const { look, decode } = lookBeside();
    return readComing(await begin(photo, report, decode), marks, report, look);
  },
  sight: async ({ photo, marks }: OfMarks, report: Report) => {
    const opened = await open(photo, report);
    return (await import('./read-sighting.ts')).readSighting(opened, marks, report);
  },
  check: async ({ photo, marks }: OfMarks, report: Report) => {
    const opened = await open(photo, report);
    return (await import('./check-court.ts')).checkCourt(opened, marks, report);
  },
  trace: async ({ photo, marks }: OfMarks, report: Report) => {
    const opened = await open(photo, report);
    return (await import('./trace-lines.ts')).traceLines(opened, marks, report);
  },
  guess: async ({ photo, former }: OfPhoto & { readonly former: Former | null }, report: Report) => {
    const opened = await open(photo, report);
    if (former === null) return (await import('./guess-marks.ts')).guessMarks(opened, null, report);
    report('follow', 'Carrying the marks over from the last picture of this spot.');
    const { readHeader } = await import('../photo/read-header.ts');
    const { width, height } = await readHeader(former.photo);
    const { courtOf, focalPriorOf, markedPoints } = await import('./from-marks.ts');
    const { raster, focal35 } = opened;
    return (await import('./follow-spot.ts')).followSpot(raster, {
      former: { points: markedPoints(former.marks), width, height },
      court: courtOf(former.marks),
      focalPrior: focalPriorOf(focal35, raster.width, raster.height),
    });
  },
  overhead: async ({ photo, reading }: OfPhoto & { readonly reading: Overhead }, report: Report) => {
    const opened = await open(photo, report);
    return (await import('./overhead-jpeg.ts')).overheadJpeg(opened, reading);
  },
  upright: async ({ photo }: OfPhoto) => (await import('../photo/page-images.ts')).uprightJpeg(photo),
  thumbnail: async ({ photo, side }: OfPhoto & { readonly side: number }) =>
    (await import('../photo/page-images.ts')).thumbnail(photo, side),
};
