import { PROJECTION, PROJECTION_LENGTH, pointAtHeight, projectInto } from '../../camera/camera-model.ts';
import type { Camera, LineSample } from '../../camera/types.ts';
import { type Court, sideEnds } from '../../lawn/court.ts';
import { metres } from '../../units/numbers.ts';

const out = new Float64Array(PROJECTION_LENGTH);

/**
 * Px from the edge as `camera` predicts it to the sample, outward positive, measured at the place of the side nearest to where the camera sees the
 * sample. NaN where the camera sees no ground there.
 */
export const sampleOffset = (camera: Camera, court: Court, sample: LineSample): number => {
  const ground = pointAtHeight(camera, sample.image, metres(0));
  if (!ground) return Number.NaN;
  const [a, b] = sideEnds(court, sample.side);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const [tx, ty] = [(b.x - a.x) / length, (b.y - a.y) / length];
  const at = (ground.x - a.x) * tx + (ground.y - a.y) * ty;
  if (!projectInto(camera, a.x + at * tx, a.y + at * ty, 0, out)) return Number.NaN;
  const dx = sample.image.x - out[PROJECTION.x]!;
  const dy = sample.image.y - out[PROJECTION.y]!;
  return dx * sample.normal[0] + dy * sample.normal[1];
};
