import type { Side } from '../lawn/court.ts';
import type { PointName } from '../lawn/named-points.ts';
import type { Pixels } from '../units/numbers.ts';
import type { ImagePoint } from '../units/points.ts';

/**
 * A pinhole camera with square pixels, its centre at the middle of the picture and radial distortion.
 * A point X of the lawn (metres) is seen at: c = R (X − C); u = c_x/c_z, v = c_y/c_z; r² = u² + v²; d = 1 + k1 r² + k2 r⁴;
 * image = (width/2 + focal·u·d, height/2 + focal·v·d). The camera's axes: x right, y down, z forward.
 */
export type Camera = {
  /** C: the centre of projection, metres in the lawn frame. */
  readonly position: readonly [number, number, number];
  /** R: lawn → camera, 3 × 3, row by row. */
  readonly rotation: readonly number[];
  /** Focal length in px. */
  readonly focal: Pixels;
  /** k1 and k2, without unit: radii in units of the focal length. */
  readonly radial: readonly [number, number];
  /** Size of the upright picture in px. */
  readonly width: Pixels;
  readonly height: Pixels;
};

/** Number of camera parameters: position (3), small rotation about the camera's own axes (3), ln focal, k1, k2. */
export const CAMERA_PARAMETERS = 9;

/** A point marked on the picture. */
export type MarkedPoint = { readonly name: PointName; readonly image: ImagePoint };

/**
 * One place where a boundary's inner edge was seen: it lies on the line through `image` that is perpendicular to `normal`.
 * `sd` is the standard deviation of the place across the line in px, paint raggedness included. Samples are taken as independent:
 * whoever makes them spaces them further apart than their errors are correlated, or widens `sd`.
 */
export type LineSample = {
  readonly side: Side;
  readonly image: ImagePoint;
  /** Unit vector across the line. */
  readonly normal: readonly [number, number];
  readonly sd: Pixels;
};

/** A camera with what is known about its errors. */
export type SolvedCamera = {
  readonly camera: Camera;
  /** 9 × 9 covariance, row by row, over CAMERA_PARAMETERS in their order; zero rows for parameters that were held. */
  readonly covariance: Float64Array;
  /** Root mean square of the standardized marks' residuals in px (marks only). */
  readonly residual: number;
  /** Residual of each mark: image distance in px between mark and projection. */
  readonly marks: readonly { readonly name: PointName; readonly residual: readonly [number, number] }[];
  /** The covariance split by what causes it; the four matrices (9 × 9, row by row) add up to `covariance` exactly. */
  readonly parts?: CovarianceParts;
  /** A sighting follows no lines: its `parts.trace` is what is assumed of the person who holds the phone and what the balls' known size says, here apart. */
  readonly known?: { readonly stance: Float64Array; readonly balls: Float64Array };
  /** Whether the focal length that the photo states was used; false when the lines contradict it, undefined when there was none. */
  readonly focalPriorUsed?: boolean;
  /** Root mean square of the traced samples' residuals in px, those that were given up left out. */
  readonly traceResidual?: number;
  /** Factor by which the traced samples, or in a sighting the marks besides the two ends, scatter more than their `sd` says; never below 1. The covariance includes it. */
  readonly scatter?: number;
  /** Robust weight of each line sample in the order given, 0 (given up) to 1. */
  readonly sampleWeights?: Float64Array;
  /** Standard deviation of the ground's height in metres that `covariance` allows for. */
  readonly unevenness?: number;
};

/** Causes of the camera's uncertainty: the finger's marks, the noise of the traced lines, what had to be assumed of the lens, the unevenness of the ground that lines and marks lie on. */
export type CovarianceParts = {
  readonly marks: Float64Array;
  readonly trace: Float64Array;
  readonly lens: Float64Array;
  readonly ground: Float64Array;
};
