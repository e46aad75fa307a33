import { describe, expect, it } from 'vitest';
import { BALL_DIAMETER, BALL_RADIUS } from '../../server/lawn/ball.ts';
import { courtPoint, SIDES, STANDARD_COURT, sideEnds } from '../../server/lawn/court.ts';
import {
  HOOP_NUMBERS,
  type HoopNumber,
  hoopPlace,
  PEG_DIAMETER,
  PEG_HEIGHT,
  pegPlace,
} from '../../server/lawn/hoops.ts';
import { namedPlace, POINT_NAMES, type PointName } from '../../server/lawn/named-points.ts';
import { METRES_PER_YARD, metres } from '../../server/units/numbers.ts';

const YARD = 0.9144;
/** Rounding of the published metric sizes: Western Australia's guide gives tenths of a metre. */
const TENTH = 0.05;

describe('the standard court', () => {
  // Laws of Association Croquet, 6th edition, Law 2: 28 yd by 35 yd; the yard is 0.9144 m by the international agreement of 1959.
  it('is 28 yd by 35 yd', () => {
    expect(METRES_PER_YARD).toBe(YARD);
    expect(STANDARD_COURT.width).toBeCloseTo(25.6032, 10);
    expect(STANDARD_COURT.length).toBeCloseTo(32.004, 10);
  });

  // Sports dimensions guide: croquet, government of Western Australia: 25.6 m by 32 m, hoops 6.4 m from boundaries and peg.
  it('agrees with the metric sizes of the dimensions guide', () => {
    expect(Math.abs(STANDARD_COURT.width - 25.6)).toBeLessThan(TENTH);
    expect(Math.abs(STANDARD_COURT.length - 32)).toBeLessThan(TENTH);
    const peg = pegPlace(STANDARD_COURT);
    for (const hoop of [5, 6] as const) {
      const { x, y } = hoopPlace(STANDARD_COURT, hoop);
      expect(x).toBeCloseTo(peg.x, 10);
      expect(Math.abs(Math.abs(y - peg.y) - 6.4)).toBeLessThan(TENTH);
    }
    for (const hoop of [1, 2, 3, 4] as const) {
      const { x, y } = hoopPlace(STANDARD_COURT, hoop);
      const { width, length } = STANDARD_COURT;
      expect(Math.abs(Math.min(x, width - x) - 6.4)).toBeLessThan(TENTH);
      expect(Math.abs(Math.min(y, length - y) - 6.4)).toBeLessThan(TENTH);
    }
  });

  // Sports dimensions guide: peg 450 mm high and 38 mm across. Ball 3 5/8 in = 92.075 mm, given as 92 mm: from memory.
  it('has the published peg and the remembered ball', () => {
    expect(PEG_HEIGHT).toBe(0.45);
    expect(PEG_DIAMETER).toBe(0.038);
    expect(Math.abs(BALL_DIAMETER - 3.625 * 0.0254)).toBeLessThan(0.0005);
    expect(BALL_RADIUS).toBe(0.046);
  });
});

/** Places in yards. Law 2 and the dimensions guide: outer hoops 7 yd from their boundaries, inner hoops 7 yd from the peg in the centre. */
const HOOPS: Record<HoopNumber, readonly [number, number]> = {
  1: [7, 7],
  2: [7, 35 - 7],
  3: [28 - 7, 35 - 7],
  4: [28 - 7, 7],
  5: [14, 17.5 - 7],
  6: [14, 17.5 + 7],
};

describe('hoops', () => {
  it.each(HOOP_NUMBERS)('hoop %i stands at its published place', (hoop) => {
    const [x, y] = HOOPS[hoop];
    expect(hoopPlace(STANDARD_COURT, hoop).x).toBeCloseTo(x * YARD, 10);
    expect(hoopPlace(STANDARD_COURT, hoop).y).toBeCloseTo(y * YARD, 10);
  });
});

/** Names of points with their places in yards: corners by common practice, halfway marks by "Essential rules simplified" no. 2 (hpcc.ie). */
const NAMED: Record<PointName, readonly [number, number]> = {
  corner1: [0, 0],
  corner2: [0, 35],
  corner3: [28, 35],
  corner4: [28, 0],
  peg: [14, 17.5],
  hoop1: HOOPS[1],
  hoop2: HOOPS[2],
  hoop3: HOOPS[3],
  hoop4: HOOPS[4],
  hoop5: HOOPS[5],
  hoop6: HOOPS[6],
  markerW: [0, 17.5],
  markerE: [28, 17.5],
  'markerS10.5': [10.5, 0],
  markerS14: [14, 0],
  'markerS17.5': [17.5, 0],
  'markerN10.5': [10.5, 35],
  markerN14: [14, 35],
  'markerN17.5': [17.5, 35],
};

describe('named points', () => {
  it.each(POINT_NAMES)('%s', (name) => {
    const [x, y] = NAMED[name];
    const place = namedPlace(STANDARD_COURT, name);
    expect(place.x).toBeCloseTo(x * YARD, 10);
    expect(place.y).toBeCloseTo(y * YARD, 10);
  });

  // Common practice: a smaller lawn keeps the proportion 4 : 5, with a fourth of the width in place of 7 yd.
  it.each(POINT_NAMES)('%s on a lawn of 16 m by 20 m lies in the same proportion', (name) => {
    const [x, y] = NAMED[name];
    const unit = 16 / 4 / 7;
    const place = namedPlace({ width: metres(16), length: metres(20) }, name);
    expect(place.x).toBeCloseTo(x * unit, 10);
    expect(place.y).toBeCloseTo(y * unit, 10);
  });
});

describe('sides', () => {
  it('run between the corners, the west or south end first', () => {
    const ends = SIDES.map((side) => [side, ...sideEnds(STANDARD_COURT, side)] as const);
    const corner = (name: PointName) => namedPlace(STANDARD_COURT, name);
    expect(ends).toEqual([
      ['south', corner('corner1'), corner('corner4')],
      ['west', corner('corner1'), corner('corner2')],
      ['north', corner('corner2'), corner('corner3')],
      ['east', corner('corner4'), corner('corner3')],
    ]);
  });

  it('courtPoint reaches the far corner', () => {
    expect(courtPoint(STANDARD_COURT, 28, 35)).toEqual(namedPlace(STANDARD_COURT, 'corner3'));
  });
});
