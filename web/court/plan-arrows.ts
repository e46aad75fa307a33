import type { Court } from '../../server/lawn/court.ts';
import { type CourtPlace, sizeOf } from './court-places.ts';

/** The longest arrow of a plan, metres of the plan. */
const LONGEST = 3;
/** Displacements are never drawn larger than so many times. */
const MOST = 20;

/** How many times as long as they are the arrows of these places are drawn: a whole number, the same for all, from 1 to 20. */
export const enlargement = (places: readonly CourtPlace[]): number => {
  const sizes = places.flatMap(({ off, within }) => (off && within !== true ? [sizeOf(off)] : []));
  const largest = Math.max(0, ...sizes);
  return largest === 0 ? MOST : Math.min(MOST, Math.max(1, Math.floor(LONGEST / largest)));
};

type Spot = { readonly x: number; readonly y: number };

/** The two strokes of an arrow's head at `to`, as a path: plan metres. An arrow without length has none. */
export const arrowHead = (from: Spot, to: Spot): string => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length === 0) return '';
  const [ux, uy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const side = (sign: number) =>
    `${to.x - 0.8 * ux - 0.45 * sign * uy} ${to.y - 0.8 * uy + 0.45 * sign * ux}`;
  return `M${side(1)}L${to.x} ${to.y}L${side(-1)}`;
};

/** Where the length of an arrow is written: inside the lawn beside a boundary mark, under a hoop or the peg. Plan metres, y down. */
export const labelSpot = (
  court: Court,
  { name, x, y }: Pick<CourtPlace, 'name' | 'x' | 'y'>,
): Spot & { readonly anchor: 'start' | 'middle' | 'end' } => {
  const top = court.length - y;
  if (name === 'markerW') return { x: x + 1.2, y: top, anchor: 'start' };
  if (name === 'markerE') return { x: x - 1.2, y: top, anchor: 'end' };
  // The middle mark of three has its label a row farther in, so that neighbours do not run into each other.
  const row = name.endsWith('14') ? 3.4 : 1.8;
  if (name.startsWith('markerS')) return { x, y: top - row, anchor: 'middle' };
  if (name.startsWith('markerN')) return { x, y: top + row, anchor: 'middle' };
  return { x, y: top + 1.9, anchor: 'middle' };
};
