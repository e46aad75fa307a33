import type { PointName } from '../lawn/named-points.ts';
import type { MarkedPoint } from './types.ts';

/** Every way in which marks can fail to give a camera. */
export const CAMERA_FAULTS = [
  'too-few-points',
  'point-twice',
  'point-outside',
  'points-in-line',
  'mirrored-order',
  'crossed-order',
  'camera-below-lawn',
  'unexplained-residual',
  'ends-reversed',
  'sighting-unsolved',
] as const;
/** The stable code of a fault. */
export type CameraFaultCode = (typeof CAMERA_FAULTS)[number];

/** Why no camera can be given. `message` says what was found, what is needed and what to do; `point` is the mark to look at first; `suggestion` is the same marks under names that fit. */
export type CameraFault = {
  readonly code: CameraFaultCode;
  readonly message: string;
  readonly point?: PointName;
  readonly suggestion?: readonly MarkedPoint[];
};
