import { CAMERA_PARAMETERS, type SolvedCamera } from '../camera/types.ts';
import type { Pose, Reading } from '../contract/reading.ts';
import type { PointName } from '../lawn/named-points.ts';
import { pixels } from '../units/numbers.ts';

/** The camera's covariance as plain numbers that can be kept with a reading, so that a ball can be placed later without the photo. */
export const describePose = (solved: SolvedCamera): Pose => ({
  covariance: [...solved.covariance],
  ...(solved.unevenness !== undefined && { unevenness: solved.unevenness }),
  ...(solved.parts && {
    parts: {
      marks: [...solved.parts.marks],
      trace: [...solved.parts.trace],
      lens: [...solved.parts.lens],
      ground: [...solved.parts.ground],
    },
  }),
});

/** What of a kept answer says where its picture was taken from; sightings have all of it too. */
export type KeptPose = {
  readonly camera?:
    | (Pick<Reading['camera'], 'position' | 'rotation' | 'focal' | 'radial' | 'residual'> & {
        readonly marks?: readonly { readonly name: string; readonly residual: number }[] | undefined;
      })
    | undefined;
  readonly photo?: Reading['photo'] | undefined;
  readonly pose?: Pose | undefined;
};

/** The solved camera of a kept reading or sighting. Null when it holds no covariance. */
export const solvedFromReading = ({ camera, photo, pose }: KeptPose): SolvedCamera | null => {
  if (!camera || !photo || pose?.covariance.length !== CAMERA_PARAMETERS ** 2) return null;
  return {
    camera: {
      position: camera.position,
      rotation: camera.rotation,
      focal: pixels(camera.focal),
      radial: camera.radial,
      width: pixels(photo.width),
      height: pixels(photo.height),
    },
    covariance: Float64Array.from(pose.covariance),
    ...(pose.unevenness !== undefined && { unevenness: pose.unevenness }),
    ...(pose.parts && {
      parts: {
        marks: Float64Array.from(pose.parts.marks),
        trace: Float64Array.from(pose.parts.trace),
        lens: Float64Array.from(pose.parts.lens),
        ground: Float64Array.from(pose.parts.ground),
      },
    }),
    residual: camera.residual,
    marks: (camera.marks ?? []).map(({ name, residual }) => ({
      name: name as PointName,
      residual: [residual, 0],
    })),
  };
};
