import { BALL_COLOURS, type BallColour, FIRST_COLOURS, SECOND_COLOURS } from '../../server/lawn/colours.ts';

/** "Red" for `red`. */
export const ballName = (colour: BallColour): string => colour[0]!.toUpperCase() + colour.slice(1);

/** "Red", "Red and Blue", "Red, Blue and Black". */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** Which colours a set of balls holds. */
export const coloursOf = (set: 'first' | 'second' | 'both'): readonly BallColour[] =>
  ({ first: FIRST_COLOURS, second: SECOND_COLOURS, both: BALL_COLOURS })[set];

/** The two balls of the side that plays `colour`: the first and third of their set, or the second and fourth. */
export const sideOf = (colour: BallColour): readonly [BallColour, BallColour] => {
  const set = (FIRST_COLOURS as readonly BallColour[]).includes(colour) ? FIRST_COLOURS : SECOND_COLOURS;
  const place = (set as readonly BallColour[]).indexOf(colour) % 2;
  return [set[place]!, set[place + 2]!];
};

/** The two balls of the other side of the same set. */
export const opponentsOf = (colour: BallColour): readonly [BallColour, BallColour] => {
  const set = (FIRST_COLOURS as readonly BallColour[]).includes(colour) ? FIRST_COLOURS : SECOND_COLOURS;
  const place = 1 - ((set as readonly BallColour[]).indexOf(colour) % 2);
  return [set[place]!, set[place + 2]!];
};
