import type { CheckRecord } from '../../server/contract/record.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';

/** Without sign, to the millimetre. */
const mm = (metres: number): string => `${Math.round(Math.abs(metres) * 1000)} mm`;

/** A difference in words, or that the picture shows none: it must exceed what the reading itself may be off, 19 times in 20. */
const difference = (value: number, sd: number, shown: string, hidden: string): string => {
  const half = giveOrTake(sd);
  return Math.abs(value) > half
    ? `${shown}, give or take ${mm(half)}.`
    : `${hidden} (${mm(half)} would show).`;
};

/** Whether the boundary is square and of the stated shape; nothing when the picture does not tell. */
export const saySquareness = (squareness: CheckRecord['squareness']): string[] => {
  if (!squareness) return [];
  const { diagonals, diagonalsSd, width, widthSd } = squareness;
  return [
    difference(
      diagonals,
      diagonalsSd,
      `The diagonal from corner 1 to 3 is ${mm(diagonals)} ${diagonals > 0 ? 'longer' : 'shorter'} than that from 2 to 4`,
      'The corners are square: no difference of the diagonals is seen',
    ),
    difference(
      width,
      widthSd,
      `If the length is right, the lawn is ${mm(width)} too ${width > 0 ? 'wide' : 'narrow'}`,
      'Width and length are in proportion, as far as this picture tells',
    ),
  ];
};

const percent = (share: number): string => `${(Math.abs(share) * 100).toFixed(2)} %`;

/** What the taped distance says of the lawn's size; nothing without a tape. */
export const sayScale = (scale: CheckRecord['scale']): string[] => {
  if (!scale) return [];
  const excess = scale.ratio - 1;
  const half = giveOrTake(scale.sd);
  if (Math.abs(excess) <= half)
    return [`The tape agrees with the stated size of the lawn, to ${percent(half)}.`];
  const way = excess > 0 ? 'smaller' : 'larger';
  return [`By the tape the lawn is ${percent(excess)} ${way} than stated, give or take ${percent(half)}.`];
};

/** How wide the paint is: one width when all sides agree to the millimetre, else side by side. */
export const sayPaint = (paint: CheckRecord['paint'] = []): string[] => {
  if (paint.length === 0) return [];
  const widths = new Set(paint.map(({ width }) => mm(width)));
  if (widths.size === 1) return [`The paint is ${[...widths][0]} wide.`];
  return [`The paint is ${paint.map(({ side, width }) => `${mm(width)} wide on the ${side}`).join(', ')}.`];
};
