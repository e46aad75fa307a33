import type { BallColour } from '../../../server/lawn/colours.ts';
import { BALL_ORDER, type ColourSet, setOf } from '../../../server/rules/ball-order.ts';
import type { Edition } from '../../../server/rules/editions.ts';
import type { Format, Stroke, WrongBallCase } from '../../../server/rules/wrong-ball-types.ts';

/**
 * One case of a table: what it shows, the ball last played rightly ("–" at the start), the strokes since as "player>ball" ("–" for none),
 * the outcome, the balls that may be played next ("–" for none), the ground, where the expectation comes from, and what else is expected
 * or given: `undone`, `options`, and `opening` where it does not follow from the start.
 */
export type Row = {
  readonly name: string;
  readonly last: string;
  readonly strokes: string;
  readonly outcome: string;
  readonly next: string;
  readonly code: string;
  readonly source: string;
  readonly more: Readonly<Record<string, string>>;
};

const blank = (cell: string): string => (cell === '–' ? '' : cell);

const moreOf = (cell: string): Record<string, string> =>
  Object.fromEntries(
    cell
      .split(' ')
      .filter(Boolean)
      .map((pair) => pair.split('=') as [string, string]),
  );

/** The rows of a table with one case a line and cells parted by "|". */
export const rowsOf = (table: string): Row[] =>
  table
    .trim()
    .split('\n')
    .map((line) => {
      const [name, last, strokes, outcome, next, code, source, more] = line
        .split('|')
        .map((cell) => cell.trim());
      if (!name || !last || !strokes || !outcome || !next || !code || !source)
        throw new Error(`Expected at least seven cells in "${line}"`);
      return { name, last, strokes, outcome, next: blank(next), code, source, more: moreOf(more ?? '') };
    });

/** "red>red black>black" as strokes. */
export const strokesOf = (text: string): Stroke[] =>
  blank(text)
    .split(' ')
    .filter(Boolean)
    .map((word) => {
      const [player, ball] = word.split('>') as [BallColour, BallColour];
      return { player, ball };
    });

/** The case that a row describes. */
export const caseOf = (row: Row, edition: Edition, format: Format): WrongBallCase => {
  const strokes = strokesOf(row.strokes);
  const lastRight = row.last === '–' ? null : (row.last as BallColour);
  const set: ColourSet = setOf(lastRight ?? strokes[0]?.ball ?? 'blue');
  const opening = row.more.opening ? row.more.opening === 'yes' : lastRight === null;
  return { edition, format, set, lastRight, opening, strokes };
};

/** The ball of the other set with the same place in the order. */
export const swapColour = (ball: BallColour): BallColour => {
  const set = setOf(ball);
  return BALL_ORDER[set === 'first' ? 'second' : 'first'][BALL_ORDER[set].indexOf(ball)]!;
};
