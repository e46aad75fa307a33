import { pointAtHeight } from '../camera/camera-model.ts';
import type { MarkedPoint, SolvedCamera } from '../camera/types.ts';
import type { Reading } from '../contract/reading.ts';
import { type Court, SIDES } from '../lawn/court.ts';
import { namedPlace, type PointName } from '../lawn/named-points.ts';
import { metres } from '../units/numbers.ts';
import type { TracedSide } from '../vision/types.ts';

const shareOf = (sides: readonly TracedSide[], name: string): number =>
  sides.find(({ side }) => side === name)?.share ?? 0;

/** Distance on the ground between a mark and the proper place of what it marks, metres; null when the mark lies above the horizon. */
const onLawn = (solved: SolvedCamera, court: Court, mark: MarkedPoint): number | null => {
  const ground = pointAtHeight(solved.camera, mark.image, metres(0));
  if (ground === null) return null;
  const place = namedPlace(court, mark.name);
  return Math.hypot(ground.x - place.x, ground.y - place.y);
};

/** The solved camera as the answer shows it: pose, lens, residuals of the marks and how much of each boundary was traced. */
export const describeCamera = (
  solved: SolvedCamera,
  sides: readonly TracedSide[],
  marks: readonly MarkedPoint[],
  court: Court,
): Reading['camera'] => {
  const residuals = new Map<PointName, number>(
    solved.marks.map(({ name, residual }) => [name, Math.hypot(...residual)]),
  );
  return {
    position: [...solved.camera.position],
    focal: solved.camera.focal,
    radial: [...solved.camera.radial],
    residual: solved.residual,
    traced: Object.fromEntries(SIDES.map((side) => [side, shareOf(sides, side)])) as Record<
      (typeof SIDES)[number],
      number
    >,
    rotation: [...solved.camera.rotation],
    marks: marks.map((mark) => ({
      name: mark.name,
      residual: residuals.get(mark.name) ?? 0,
      onLawn: onLawn(solved, court, mark),
    })),
  };
};
