import type { Ridges } from './white-ridges.ts';

/** A straight line cos(angle)·x + sin(angle)·y = distance in px of the reduced picture, and how many more ridge points lie on it than on the grass beside it. */
export type StraightLine = { readonly angle: number; readonly distance: number; readonly support: number };

/** Half-degree steps. */
const ANGLES = 360;
/** Width of a cell of the distance, px. */
const CELL = 2;
/** A ridge point this near (px) belongs to the line; a wide lens bends a side by a few px. */
const NEAR = 3;
/** Peaks looked at, and lines kept: four sides, mowing marks, a path, a second court. */
const MOST_PEAKS = 40;
const MOST_LINES = 16;
/** A line holds more points than the grass beside it by this many times the root of what grass would give. */
const DENSER = 5;

/** The strongest lines among the ridge points, strongest first, by Hough's transform with each line's points taken out before the next is sought. */
export const straightLines = (ridges: Ridges): StraightLine[] => {
  const votes = new Votes(ridges);
  const alive = new Uint8Array(ridges.count).fill(1);
  for (let i = 0; i < ridges.count; i++) votes.add(i, 1);
  const lines: StraightLine[] = [];
  // Shorter than a twentieth of the picture no side is worth guessing from.
  const least = Math.max(ridges.width, ridges.height) / 20;
  for (let found = 0; found < MOST_PEAKS; found++) {
    const peak = votes.peak();
    const members = near(ridges, alive, peak.angle, peak.distance, NEAR + 1);
    if (members.length < least) break;
    const line = settle(ridges, alive, peak);
    const taken = near(ridges, alive, line.angle, line.distance, NEAR);
    for (const i of taken.length ? taken : members) {
      alive[i] = 0;
      votes.add(i, -1);
    }
    const chance = (bandOf(2 * NEAR, ridges, line) + bandOf(-2 * NEAR, ridges, line)) / 2;
    const excess = taken.length - chance;
    if (excess >= least && excess > DENSER * Math.sqrt(chance + 1)) lines.push({ ...line, support: excess });
  }
  return lines.sort((a, b) => b.support - a.support).slice(0, MOST_LINES);
};

/** Ridge points in a band as wide as a line's, `aside` px beside it. */
const bandOf = (aside: number, ridges: Ridges, { angle, distance }: StraightLine): number => {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  let count = 0;
  for (let i = 0; i < ridges.count; i++)
    if (Math.abs(c * ridges.x[i]! + s * ridges.y[i]! - distance - aside) < NEAR) count++;
  return count;
};

/** The accumulator: a point votes for the lines through it that its own direction allows. */
class Votes {
  private readonly ridges: Ridges;
  private readonly cells: number;
  private readonly table: Int32Array;
  private readonly cos = Float64Array.from({ length: ANGLES }, (_, k) => Math.cos((k * Math.PI) / ANGLES));
  private readonly sin = Float64Array.from({ length: ANGLES }, (_, k) => Math.sin((k * Math.PI) / ANGLES));

  constructor(ridges: Ridges) {
    this.ridges = ridges;
    this.cells = Math.ceil((2 * Math.hypot(ridges.width, ridges.height)) / CELL) + 2;
    this.table = new Int32Array(ANGLES * this.cells);
  }

  add(i: number, vote: number): void {
    const { x, y, level } = this.ridges;
    // The angle is that of the normal: a level line has it upright, near the middle of the range.
    for (let k = 0; k < ANGLES; k++) {
      const tilt = Math.abs(k - ANGLES / 2) / ANGLES;
      if (level[i] ? tilt > 0.3 : tilt < 0.2) continue;
      const cell = Math.floor((this.cos[k]! * x[i]! + this.sin[k]! * y[i]!) / CELL) + (this.cells >> 1);
      this.table[k * this.cells + cell] = this.table[k * this.cells + cell]! + vote;
    }
  }

  peak(): StraightLine {
    let best = 0;
    for (let i = 1; i < this.table.length; i++) if (this.table[i]! > this.table[best]!) best = i;
    const k = Math.floor(best / this.cells);
    const distance = ((best % this.cells) - (this.cells >> 1) + 0.5) * CELL;
    return { angle: (k * Math.PI) / ANGLES, distance, support: this.table[best]! };
  }
}

const near = (
  ridges: Ridges,
  alive: Uint8Array,
  angle: number,
  distance: number,
  reach: number,
): number[] => {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const found: number[] = [];
  for (let i = 0; i < ridges.count; i++)
    if (alive[i] && Math.abs(c * ridges.x[i]! + s * ridges.y[i]! - distance) < reach) found.push(i);
  return found;
};

/** Total least squares of the points near the line, a few times. */
const settle = (ridges: Ridges, alive: Uint8Array, start: StraightLine): StraightLine => {
  let line = start;
  for (let round = 0; round < 4; round++) {
    const members = near(ridges, alive, line.angle, line.distance, NEAR + 1);
    if (members.length < 3) return line;
    line = { ...leastSquares(ridges, members), support: members.length };
  }
  return line;
};

const leastSquares = (
  ridges: Ridges,
  members: readonly number[],
): { readonly angle: number; readonly distance: number } => {
  let mx = 0;
  let my = 0;
  for (const i of members) {
    mx += ridges.x[i]!;
    my += ridges.y[i]!;
  }
  mx /= members.length;
  my /= members.length;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const i of members) {
    const dx = ridges.x[i]! - mx;
    const dy = ridges.y[i]! - my;
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  // The normal is the direction of least scatter; it is turned into the upper half circle.
  let angle = Math.atan2(2 * xy, xx - yy) / 2 + Math.PI / 2;
  if (angle >= Math.PI) angle -= Math.PI;
  return { angle, distance: Math.cos(angle) * mx + Math.sin(angle) * my };
};
