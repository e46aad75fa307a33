import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { lookAt } from '../../server/camera/rotation.ts';
import type { Camera } from '../../server/camera/types.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { hoopPlace } from '../../server/lawn/hoops.ts';
import { markerPlace } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { type LawnPoint, lawnPoint3 } from '../../server/units/points.ts';
import { findHoop, findMarker, type Landmark } from '../../server/vision/landmarks/find-landmarks.ts';
import { type Bar, type Post, renderWindow, type Strip } from './upright-scene.ts';

const camera = (x: number, y: number, z: number): Camera => ({
  position: [x, y, z],
  rotation: lookAt([x, y, z], [12.8, 14, 0]),
  focal: pixels(2357),
  radial: [0, 0],
  width: pixels(3264),
  height: pixels(2448),
});

/** Hoop of two 16 mm uprights 111 mm apart between axes and a crown of the same thickness, 305 mm high. */
const hoopAt = ({ x, y }: LawnPoint): { posts: Post[]; bars: Bar[] } => ({
  posts: [-0.0555, 0.0555].map((aside) => ({ x: x + aside, y, radius: 0.008, height: 0.297 })),
  bars: [{ x, y, z: 0.297, radius: 0.008, half: 0.0635 }],
});

const around = (view: Camera, { x, y }: LawnPoint) => {
  const { x: px, y: py } = projectPoint(view, lawnPoint3(x, y, 0.1))!;
  return { left: px - 130, right: px + 130, top: py - 110, bottom: py + 110 };
};

const displacement = (landmark: Landmark, place: LawnPoint) => ({
  dx: landmark.from.x + landmark.fit.parameters[0]! - place.x,
  dy: landmark.from.y + landmark.fit.parameters[1]! - place.y,
  sdX: Math.sqrt(landmark.fit.covariance.get(0, 0)),
  sdY: Math.sqrt(landmark.fit.covariance.get(1, 1)),
});

// Expected values: the scene's own geometry. Limits: 0.75 px along the line of sight, which is distance²/(focal × height) on the ground for a px; across
// it 0.25 px is distance / focal / 4.
describe('a hoop is measured where it stands', () => {
  const cases = [
    { name: 'from a mast, in its place', view: camera(12, -10, 19), hoop: 1, dx: 0, dy: 0 },
    { name: 'from a mast, 120 mm off', view: camera(12, -10, 19), hoop: 4, dx: 0.1, dy: -0.066 },
    { name: 'from a mast, far hoop', view: camera(12, -10, 19), hoop: 2, dx: -0.2, dy: 0.1 },
    { name: 'from a terrace, near hoop', view: camera(11.5, -12, 7), hoop: 5, dx: 0.05, dy: 0.2 },
    { name: 'from a terrace, far hoop', view: camera(11.5, -12, 7), hoop: 3, dx: 0, dy: -0.3 },
    { name: 'from the side', view: camera(-9, 16, 8), hoop: 6, dx: 0.08, dy: 0.03 },
  ] as const;
  for (const { name, view, hoop, dx, dy } of cases)
    it(name, () => {
      const place = hoopPlace(STANDARD_COURT, hoop);
      const stands = { x: place.x + dx, y: place.y + dy };
      const raster = renderWindow(view, { ...hoopAt(stands), grain: 6, seed: hoop }, around(view, place));
      const found = findHoop(raster, view, STANDARD_COURT, hoop);
      expect(found).not.toBeNull();
      const measured = displacement(found!, place);
      const distance = Math.hypot(stands.x - view.position[0], stands.y - view.position[1]);
      const alongSight = ((distance ** 2 + view.position[2] ** 2) / (view.focal * view.position[2])) * 0.75;
      expect(Math.hypot(measured.dx - dx, measured.dy - dy)).toBeLessThan(Math.max(0.01, alongSight));
      expect(Math.abs(measured.dx - dx)).toBeLessThan(4 * measured.sdX + 0.002);
      expect(Math.abs(measured.dy - dy)).toBeLessThan(4 * measured.sdY + 0.5 * alongSight);
    });

  it('is not seen where there is only grass', () => {
    const view = camera(12, -10, 19);
    const raster = renderWindow(
      view,
      { posts: [], grain: 6, seed: 3 },
      around(view, hoopPlace(STANDARD_COURT, 1)),
    );
    expect(findHoop(raster, view, STANDARD_COURT, 1)).toBeNull();
  });
});

// Paint 50 mm wide outside the boundary; markers stand 60 mm outside its inner edge. Expected values: the scene's own geometry.
describe('a boundary marker is measured beside the line', () => {
  const south: Strip = { axis: 'y', from: -0.05, to: 0 };
  const west: Strip = { axis: 'x', from: -0.05, to: 0 };
  const cases = [
    { name: 'south, in its place', marker: 'markerS14', along: 0, strip: south, most: 0.006 },
    { name: 'south, 90 mm west', marker: 'markerS10.5', along: -0.09, strip: south, most: 0.006 },
    { name: 'south, 300 mm east', marker: 'markerS17.5', along: 0.3, strip: south, most: 0.006 },
    { name: 'west, 180 mm north', marker: 'markerW', along: 0.18, strip: west, most: 0.02 },
  ] as const;
  for (const { name, marker, along, strip, most } of cases)
    it(name, () => {
      const view = camera(12, -10, 19);
      const place = markerPlace(STANDARD_COURT, marker);
      const west = strip.axis === 'x';
      const post = west
        ? { x: place.x - 0.06, y: place.y + along, radius: 0.01, height: 0.09 }
        : { x: place.x + along, y: place.y - 0.06, radius: 0.01, height: 0.09 };
      const scene = { posts: [post], strips: [strip], grain: 6, seed: 5 };
      const found = findMarker(renderWindow(view, scene, around(view, place)), view, STANDARD_COURT, marker);
      expect(found).not.toBeNull();
      const { dx, dy } = displacement(found!, place);
      expect(Math.abs((west ? dy : dx) - along)).toBeLessThan(most);
    });

  it('is missing when only the line is there', () => {
    const view = camera(12, -10, 19);
    const place = markerPlace(STANDARD_COURT, 'markerS14');
    const raster = renderWindow(view, { posts: [], strips: [south], grain: 6, seed: 9 }, around(view, place));
    expect(findMarker(raster, view, STANDARD_COURT, 'markerS14')).toBeNull();
  });
});
