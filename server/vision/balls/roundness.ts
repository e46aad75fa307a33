/** Side in cells of the square window in which places are compared; its cells lie row by row. */
export const SIDE = 29;
/** Directions in which the outline is tested. */
export const SECTORS = 8;
/** Radius and place are rounded to this share of a cell: a tenth of the least radius that is asked. */
const FINENESS = 4;
/** Inside and outside of a disc, as shares of its radius (the outside begins half a cell farther out): the soft edge between them says little. */
const INSIDE_FROM = 0.35;
const INSIDE_TO = 0.95;
const OUTSIDE_FROM = 1.1;
const OUTSIDE_TO = 1.75;

/** Cells of a disc and its surroundings, relative to the cell that holds its middle: those of sector s inside are `cells[starts[2s]]` up to `cells[starts[2s + 1]]`, those outside follow. */
type Template = { readonly cells: Int16Array; readonly starts: Uint16Array };

const templates = new Map<number, Template>();

/** The sector of the direction (dx, dy), eight of 45° each, without a call to atan2. */
const sectorOf = (dx: number, dy: number): number => {
  const steep = Math.abs(dy) > Math.abs(dx) ? 1 : 0;
  return (dy < 0 ? 4 : 0) + (dx < 0 ? 2 : 0) + steep;
};

/** The template of a disc of `radius` cells whose middle is (`fx`, `fy`) cells from its cell's corner. */
const makeTemplate = (radius: number, fx: number, fy: number): Template => {
  const lists: number[][] = Array.from({ length: 2 * SECTORS }, () => []);
  const reach = Math.ceil(OUTSIDE_TO * radius + 1.5);
  for (let j = -reach; j <= reach; j++)
    for (let i = -reach; i <= reach; i++) {
      const [dx, dy] = [i + 0.5 - fx, j + 0.5 - fy];
      const d = Math.hypot(dx, dy);
      const inside = d >= INSIDE_FROM * radius && d <= INSIDE_TO * radius;
      if (!inside && (d < OUTSIDE_FROM * radius + 0.5 || d > OUTSIDE_TO * radius + 0.5)) continue;
      lists[2 * sectorOf(dx, dy) + (inside ? 0 : 1)]!.push(j * SIDE + i);
    }
  const starts = [0];
  for (const list of lists) starts.push(starts.at(-1)! + list.length);
  return { cells: Int16Array.from(lists.flat()), starts: Uint16Array.from(starts) };
};

const templateOf = (radius: number, fx: number, fy: number): Template => {
  const key = (radius * (FINENESS + 1) + fx) * (FINENESS + 1) + fy;
  let template = templates.get(key);
  if (template === undefined) {
    template = makeTemplate(radius / FINENESS, fx / FINENESS, fy / FINENESS);
    templates.set(key, template);
  }
  return template;
};

const clamp01 = (t: number): number => (t < 0 ? 0 : Math.min(t, 1));

const meanOf = (values: Float64Array, at: number, cells: Int16Array, from: number, to: number): number => {
  let sum = 0;
  for (let k = from; k < to; k++) sum += values[at + cells[k]!]!;
  return clamp01(sum / (to - from));
};

/**
 * How round the disc of `radius` cells at (`x`, `y`), in cells from the window's corner, stands out of `values` (SIDE × SIDE; 0 on the lawn, 1 on the thing): the
 * sum over the sectors of inside minus outside, 0 to SECTORS. 0 when its surroundings leave the window.
 */
export const roundnessAt = (values: Float64Array, x: number, y: number, radius: number): number => {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  const reach = Math.ceil(OUTSIDE_TO * radius + 1.5);
  if (Math.min(column, row) < reach || Math.max(column, row) >= SIDE - reach) return 0;
  const { cells, starts } = templateOf(
    Math.round(radius * FINENESS),
    Math.round((x - column) * FINENESS),
    Math.round((y - row) * FINENESS),
  );
  const at = row * SIDE + column;
  let sum = 0;
  for (let s = 0; s < SECTORS; s++) {
    const [a, b, c] = [starts[2 * s]!, starts[2 * s + 1]!, starts[2 * s + 2]!];
    if (a === b || b === c) continue;
    const stands = meanOf(values, at, cells, a, b) - meanOf(values, at, cells, b, c);
    if (stands > 0) sum += stands;
  }
  return sum;
};
