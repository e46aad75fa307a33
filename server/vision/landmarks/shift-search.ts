import type { Patch } from './patch.ts';

/** A place where a template fits: shift in samples and its evidence (brightness ÷ its standard deviation). */
export type ShiftMatch = { readonly dx: number; readonly dy: number; readonly evidence: number };

/** The non-zero part of a template as a list, its mean taken off. */
const sparse = (template: Float64Array, columns: number) => {
  const entries: { i: number; j: number; value: number }[] = [];
  let left = columns;
  let right = 0;
  let top = Number.POSITIVE_INFINITY;
  let bottom = 0;
  template.forEach((value, index) => {
    if (value < 0.05) return;
    const i = index % columns;
    const j = Math.floor(index / columns);
    left = Math.min(left, i);
    right = Math.max(right, i);
    top = Math.min(top, j);
    bottom = Math.max(bottom, j);
  });
  if (top > bottom) return null;
  // A frame of grass two samples wide belongs to the template: it must be darker than the object.
  for (let j = Math.max(0, top - 2); j <= bottom + 2 && j * columns < template.length; j++)
    for (let i = Math.max(0, left - 2); i <= Math.min(columns - 1, right + 2); i++)
      entries.push({ i, j, value: template[j * columns + i] ?? 0 });
  const mean = entries.reduce((sum, entry) => sum + entry.value, 0) / entries.length;
  return entries.map((entry) => ({ ...entry, value: entry.value - mean }));
};

/**
 * Slides `template` (drawn on the same grid as `patch`) by whole samples up to ±`reach.x`, ±`reach.y` and returns the shifts by falling
 * evidence of a bright object on even ground; shifts that move it out of the patch are left out.
 */
export const searchShifts = (
  patch: Patch,
  template: Float64Array,
  reach: { readonly x: number; readonly y: number },
): ShiftMatch[] => {
  const entries = sparse(template, patch.columns);
  if (entries === null) return [];
  const energy = entries.reduce((sum, { value }) => sum + value * value, 0);
  const found: ShiftMatch[] = [];
  for (let dy = -reach.y; dy <= reach.y; dy++)
    for (let dx = -reach.x; dx <= reach.x; dx++) {
      let sum = 0;
      let square = 0;
      let product = 0;
      let inside = true;
      for (const { i, j, value } of entries) {
        const x = i + dx;
        const y = j + dy;
        if (x < 0 || y < 0 || x >= patch.columns || y >= patch.rows) {
          inside = false;
          break;
        }
        const v = patch.values[y * patch.columns + x]!;
        sum += v;
        square += v * v;
        product += v * value;
      }
      if (!inside) continue;
      const total = square - (sum * sum) / entries.length;
      const explained = (product * product) / energy;
      const left = Math.max(1e-9, total - explained) / Math.max(1, entries.length - 2);
      found.push({ dx, dy, evidence: (Math.sign(product) * Math.sqrt(explained)) / Math.sqrt(left) });
    }
  return found.sort((a, b) => b.evidence - a.evidence);
};
