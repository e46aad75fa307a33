/** First colours in order of play (WCF Golf Croquet Rules 2013, rule 1). */
export const FIRST_COLOURS = ['blue', 'red', 'black', 'yellow'] as const;
/** Second colours in order of play (WCF Golf Croquet Rules 2013, rule 1). */
export const SECOND_COLOURS = ['green', 'pink', 'brown', 'white'] as const;
/** All eight ball colours, first colours before second. */
export const BALL_COLOURS = [...FIRST_COLOURS, ...SECOND_COLOURS] as const;

/** The colour of a ball. */
export type BallColour = (typeof BALL_COLOURS)[number];

/** Whether `value` names a ball colour. */
export const isBallColour = (value: unknown): value is BallColour =>
  BALL_COLOURS.includes(value as BallColour);
