import { togetherEvidence } from './fit-shape.ts';
import type { Patch } from './patch.ts';

/** A place where a template fits: shift in samples and its evidence (brightness and whiteness ÷ their standard deviations). */
export type ShiftMatch = { readonly dx: number; readonly dy: number; readonly evidence: number };

type Entry = { readonly i: number; readonly j: number; readonly value: number };

/** Parts of a template fainter than this do not count. */
const LEAST_PART = 0.05;

/** The non-zero part of a template as a list, its mean taken off. */
const sparse = (template: Float64Array, columns: number): Entry[] | null => {
  const entries: Entry[] = [];
  let left = columns;
  let right = 0;
  let top = Number.POSITIVE_INFINITY;
  let bottom = 0;
  template.forEach((value, index) => {
    if (Math.abs(value) < LEAST_PART) return;
    const i = index % columns;
    const j = Math.floor(index / columns);
    left = Math.min(left, i);
    right = Math.max(right, i);
    top = Math.min(top, j);
    bottom = Math.max(bottom, j);
  });
  if (top > bottom) return null;
  // A frame of grass two samples wide belongs to the template: the object must differ from it.
  for (let j = Math.max(0, top - 2); j <= bottom + 2 && j * columns < template.length; j++)
    for (let i = Math.max(0, left - 2); i <= Math.min(columns - 1, right + 2); i++)
      entries.push({ i, j, value: template[j * columns + i] ?? 0 });
  const mean = entries.reduce((sum, entry) => sum + entry.value, 0) / entries.length;
  return entries.map((entry) => ({ ...entry, value: entry.value - mean }));
};

/** Signed evidence of one channel with the template moved by (dx, dy). */
const evidenceAt = (
  values: Float64Array,
  columns: number,
  entries: readonly Entry[],
  energy: number,
  dx: number,
  dy: number,
): number => {
  let sum = 0;
  let square = 0;
  let product = 0;
  for (const { i, j, value } of entries) {
    const v = values[(j + dy) * columns + i + dx]!;
    sum += v;
    square += v * v;
    product += v * value;
  }
  const total = square - (sum * sum) / entries.length;
  const explained = (product * product) / energy;
  const left = Math.max(1e-9, total - explained) / Math.max(1, entries.length - 2);
  return (Math.sign(product) * Math.sqrt(explained)) / Math.sqrt(left);
};

/**
 * Slides `templates` (one a channel, drawn on the same grid as `patch`) by whole samples up to ±`reach.x`, ±`reach.y` and returns the shifts by
 * falling evidence of a white object on even ground; shifts that move it out of the patch are left out.
 */
export const searchShifts = (
  patch: Patch,
  templates: readonly Float64Array[],
  reach: { readonly x: number; readonly y: number },
): ShiftMatch[] => {
  const lists = templates.map((template) => sparse(template, patch.columns));
  if (lists.some((list) => list === null)) return [];
  const entries = lists as Entry[][];
  const energies = entries.map((list) => list.reduce((sum, { value }) => sum + value * value, 0));
  const all = entries.flat();
  const [left, right] = [Math.min(...all.map(({ i }) => i)), Math.max(...all.map(({ i }) => i))];
  const [top, bottom] = [Math.min(...all.map(({ j }) => j)), Math.max(...all.map(({ j }) => j))];
  const found: ShiftMatch[] = [];
  for (let dy = Math.max(-reach.y, -top); dy <= Math.min(reach.y, patch.rows - 1 - bottom); dy++)
    for (let dx = Math.max(-reach.x, -left); dx <= Math.min(reach.x, patch.columns - 1 - right); dx++) {
      const [light, white] = entries.map((list, c) =>
        evidenceAt(patch.channels[c]!, patch.columns, list, energies[c]!, dx, dy),
      ) as [number, number];
      found.push({ dx, dy, evidence: togetherEvidence(light, white) });
    }
  return found.sort((a, b) => b.evidence - a.evidence);
};
