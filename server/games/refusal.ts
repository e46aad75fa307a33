import type { BallColour } from '../lawn/colours.ts';

/** Why an event was refused. */
export const REFUSAL_CODES = [
  'notBegun',
  'alreadyBegun',
  'ended',
  'suspended',
  'notSuspended',
  'won',
  'notWon',
  'wrongTurn',
  'rightTurn',
  'otherColours',
  'noWrongBall',
  'wrongRemedy',
  'refereeNeeded',
  'directionRefused',
  'outsideArea',
  'noStroke',
  'notOffsideNow',
  'noSuchEntry',
  'notCorrectable',
  'laterEntryFails',
  'numberGap',
] as const;
export type RefusalCode = (typeof REFUSAL_CODES)[number];

/**
 * An event that the log does not take. `message` says what was found, what the log expected and what to do; `expected`: the balls one of
 * which plays next; `entry`: the number of the entry that does not fit, when it is not the new one.
 */
export type Refusal = {
  readonly code: RefusalCode;
  readonly message: string;
  readonly expected?: readonly BallColour[];
  readonly entry?: number;
};

/** A refusal. */
export const refusal = (code: RefusalCode, message: string, expected?: readonly BallColour[]): Refusal =>
  expected ? { code, message, expected } : { code, message };
