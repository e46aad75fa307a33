import type { Raster } from '../units/raster.ts';

/**
 * The only door to opencv-wasm. It loads the library once per thread, takes off what it does to the process, turns its C++ errors (thrown
 * as bare pointers) into `OpenCvError` and gives back the stack they leak. For worker threads: loading takes a fifth of a second and calls block.
 */
export type OpenCv = {
  /** Straight segments in a mask of one byte per pixel (0 = off), by the probabilistic Hough transform. */
  readonly segments: (mask: Uint8Array, width: number, height: number, rule: SegmentRule) => Segment[];
  /** The 3 × 3 homography, row by row, that takes `from` to `to` (pairs of x, y; at least four). Null when opencv finds none. */
  readonly homography: (from: readonly Pair[], to: readonly Pair[]) => number[] | null;
  /** Focal length, radial terms and position of a camera that sees points of a plane (z = 0); an independent check of our own solver. */
  readonly calibratePlane: (view: PlaneView) => PlaneCalibration;
  /** The picture seen through a homography that takes the result's pixels to the source's; bilinear, black outside. */
  readonly warp: (source: Raster, toSource: readonly number[], width: number, height: number) => Raster;
  /** Runs `call` against the raw library; errors come out as `OpenCvError`, the stack is restored. */
  readonly guard: <T>(call: (cv: RawCv) => T) => T;
};

export type Pair = readonly [number, number];
/** Ends of a segment in px (pixel indices plus one half: the frame of image points). */
export type Segment = { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };
/** Votes needed, least length and longest gap in px, step of the distance in px and of the angle in radians. */
export type SegmentRule = {
  readonly votes: number;
  readonly length: number;
  readonly gap: number;
  readonly step: number;
  readonly angle: number;
};
export type PlaneView = {
  readonly plane: readonly Pair[];
  readonly image: readonly Pair[];
  readonly width: number;
  readonly height: number;
  /** Focal length to start from, px. */
  readonly focal: number;
};
export type PlaneCalibration = {
  readonly focal: number;
  readonly k1: number;
  readonly position: readonly [number, number, number];
  /** Root mean square reprojection error, px. */
  readonly rms: number;
};

/** An error that opencv reports: the first line of its own message. */
export class OpenCvError extends Error {
  constructor(message: string) {
    super(message.split('\n')[0]!.slice(0, 300));
    this.name = 'OpenCvError';
  }
}

/** A matrix of the library. Its memory is not collected: every one must be deleted. `data` views go stale at the next call. */
export type CvMat = {
  readonly rows: number;
  readonly cols: number;
  readonly data: Uint8Array;
  readonly data32S: Int32Array;
  readonly data64F: Float64Array;
  readonly delete: () => void;
};
type CvVector = { push_back(mat: CvMat): void; get(i: number): CvMat; delete(): void };
/** The parts of the library in use, with the types it really takes. Constants it clobbers are not among them. */
export type RawCv = {
  readonly Mat: {
    new (): CvMat;
    new (rows: number, cols: number, type: number): CvMat;
    zeros(rows: number, cols: number, type: number): CvMat;
  };
  readonly MatVector: new () => CvVector;
  readonly Size: new (width: number, height: number) => unknown;
  readonly Scalar: new (...values: number[]) => unknown;
  readonly TermCriteria: new (type: number, count: number, epsilon: number) => unknown;
  readonly CV_8UC1: number;
  readonly CV_8UC3: number;
  readonly CV_64F: number;
  readonly CV_32FC2: number;
  readonly CV_32FC3: number;
  matFromArray(rows: number, cols: number, type: number, values: readonly number[]): CvMat;
  HoughLinesP(
    src: CvMat,
    out: CvMat,
    rho: number,
    theta: number,
    votes: number,
    length: number,
    gap: number,
  ): void;
  findHomography(from: CvMat, to: CvMat, method: number, limit: number): CvMat;
  warpPerspective(
    src: CvMat,
    dst: CvMat,
    m: CvMat,
    size: unknown,
    flags: number,
    border: number,
    value: unknown,
  ): void;
  GaussianBlur(src: CvMat, dst: CvMat, size: unknown, sigmaX: number, sigmaY: number, border: number): void;
  Rodrigues(from: CvMat, to: CvMat): void;
  calibrateCameraExtended(...values: unknown[]): number;
  stackSave(): number;
  stackRestore(pointer: number): void;
  exceptionFromPtr(pointer: number): { readonly msg: string };
};

let loading: Promise<OpenCv> | undefined;

/** The library, loaded at the first call in this thread. */
export const loadOpenCv = (): Promise<OpenCv> => {
  loading ??= load();
  return loading;
};

const WATCHED = ['uncaughtException', 'unhandledRejection'] as const;
type Listener = (...values: unknown[]) => void;
/** `process` narrowed to what is used here; its own types list every event. */
const events = process as unknown as {
  listeners(event: string): Listener[];
  removeListener(event: string, listener: Listener): void;
};

const load = async (): Promise<OpenCv> => {
  const before = new Map(WATCHED.map((event) => [event, events.listeners(event)]));
  const { default: library } = await import('opencv-wasm');
  const { cv } = library as unknown as { cv: RawCv & { then?: unknown } };
  // With `then` on it, awaiting anything that returns it would never end.
  delete cv.then;
  // It aborts the whole process at any stray rejection; that decision is not its own.
  for (const event of WATCHED)
    for (const listener of events.listeners(event))
      if (!before.get(event)!.includes(listener)) events.removeListener(event, listener);
  return adapt(cv);
};

/** A C++ error leaves its stack frames behind; a thousand of them would fill the stack and make every later call fail. */
const guardWith =
  (cv: RawCv) =>
  <T>(call: (cv: RawCv) => T): T => {
    const stack = cv.stackSave();
    try {
      return call(cv);
    } catch (error) {
      cv.stackRestore(stack);
      if (typeof error === 'number') throw new OpenCvError(cv.exceptionFromPtr(error).msg);
      if (error instanceof OpenCvError) throw error;
      throw new OpenCvError(error instanceof Error ? error.message : String(error));
    }
  };

/** Runs `use` with a list that collects matrices, and deletes them whatever happens. */
const withMats = <T>(use: (keep: <M extends { delete(): void }>(mat: M) => M) => T): T => {
  const kept: { delete(): void }[] = [];
  try {
    return use((mat) => {
      kept.push(mat);
      return mat;
    });
  } finally {
    for (const mat of kept.reverse()) mat.delete();
  }
};

const adapt = (cv: RawCv): OpenCv => {
  const guard = guardWith(cv);
  return {
    guard,
    segments: (mask, width, height, rule) => guard(() => segmentsIn(cv, mask, width, height, rule)),
    homography: (from, to) => guard(() => homographyBetween(cv, from, to)),
    calibratePlane: (view) => guard(() => calibrate(cv, view)),
    warp: (source, toSource, width, height) => guard(() => warpBy(cv, source, toSource, width, height)),
  };
};

const segmentsIn = (
  cv: RawCv,
  mask: Uint8Array,
  width: number,
  height: number,
  rule: SegmentRule,
): Segment[] =>
  withMats((keep) => {
    const source = keep(new cv.Mat(height, width, cv.CV_8UC1));
    source.data.set(mask);
    const out = keep(new cv.Mat());
    cv.HoughLinesP(source, out, rule.step, rule.angle, rule.votes, rule.length, rule.gap);
    const found = out.data32S;
    return Array.from({ length: out.rows }, (_, i) => ({
      x0: found[4 * i]! + 0.5,
      y0: found[4 * i + 1]! + 0.5,
      x1: found[4 * i + 2]! + 0.5,
      y1: found[4 * i + 3]! + 0.5,
    }));
  });

const homographyBetween = (cv: RawCv, from: readonly Pair[], to: readonly Pair[]): number[] | null =>
  withMats((keep) => {
    const a = keep(cv.matFromArray(from.length, 1, cv.CV_32FC2, from.flat()));
    const b = keep(cv.matFromArray(to.length, 1, cv.CV_32FC2, to.flat()));
    const h = keep(cv.findHomography(a, b, 0, 3));
    return h.rows === 3 ? Array.from(h.data64F) : null;
  });

const warpBy = (
  cv: RawCv,
  source: Raster,
  toSource: readonly number[],
  width: number,
  height: number,
): Raster =>
  withMats((keep) => {
    const from = keep(new cv.Mat(source.height, source.width, cv.CV_8UC3));
    from.data.set(source.data);
    const to = keep(new cv.Mat());
    const m = keep(cv.matFromArray(3, 3, cv.CV_64F, toSource));
    cv.warpPerspective(
      from,
      to,
      m,
      new cv.Size(width, height),
      BILINEAR_INVERSE,
      BLACK_BORDER,
      new cv.Scalar(),
    );
    return { width, height, data: Uint8Array.from(to.data) };
  });

/** INTER_LINEAR with WARP_INVERSE_MAP, and BORDER_CONSTANT, as OpenCV's documentation numbers them. */
const BILINEAR_INVERSE = 1 | 16;
const BLACK_BORDER = 0;

/**
 * Flags of calibrateCamera by the numbers of OpenCV's documentation: the library's own constants of these names hold the fisheye model's.
 * Guess given (1), aspect fixed (2), principal point fixed (4), no tangential terms (8), k2 and k3 fixed (64, 128).
 */
const PLANE_FLAGS = 1 | 2 | 4 | 8 | 64 | 128;

const calibrate = (cv: RawCv, view: PlaneView): PlaneCalibration =>
  withMats((keep) => {
    const n = view.plane.length;
    const object = keep(
      cv.matFromArray(
        n,
        1,
        cv.CV_32FC3,
        view.plane.flatMap(([x, y]) => [x, y, 0]),
      ),
    );
    const image = keep(cv.matFromArray(n, 1, cv.CV_32FC2, view.image.flat()));
    const objects = keep(new cv.MatVector());
    const images = keep(new cv.MatVector());
    objects.push_back(object);
    images.push_back(image);
    const { focal: f, width, height } = view;
    const k = keep(cv.matFromArray(3, 3, cv.CV_64F, [f, 0, width / 2, 0, f, height / 2, 0, 0, 1]));
    const lens = keep(cv.Mat.zeros(5, 1, cv.CV_64F));
    const turns = keep(new cv.MatVector());
    const moves = keep(new cv.MatVector());
    const spare = [0, 1, 2].map(() => keep(new cv.Mat()));
    const size = new cv.Size(width, height);
    const rms = cv.calibrateCameraExtended(
      objects,
      images,
      size,
      k,
      lens,
      turns,
      moves,
      ...spare,
      PLANE_FLAGS,
      new cv.TermCriteria(3, 100, 1e-10),
    );
    const turn = keep(new cv.Mat());
    cv.Rodrigues(keep(turns.get(0)), turn);
    const [r, t] = [turn.data64F, keep(moves.get(0)).data64F];
    const along = (i: number): number => -(r[i]! * t[0]! + r[3 + i]! * t[1]! + r[6 + i]! * t[2]!);
    return { focal: k.data64F[0]!, k1: lens.data64F[0]!, position: [along(0), along(1), along(2)], rms };
  });
