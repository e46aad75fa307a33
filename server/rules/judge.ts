import type { BallColour } from '../lawn/colours.ts';
import type { HalfwayLine } from '../lawn/halfway-lines.ts';
import { metres } from '../units/numbers.ts';
import { lawnPoint } from '../units/points.ts';
import type { Lies } from './all-across.ts';
import type { ColourSet } from './ball-order.ts';
import type { Edition } from './editions.ts';
import { type GameLength, HOOP_SEQUENCES, lineAfter } from './hoop-order.ts';
import { type Arrival, judgeOffside, type OffsideCode, type OffsideVerdict } from './offside.ts';
import { judgeWrongBall } from './wrong-ball.ts';
import type {
  Format,
  Stroke,
  WrongBallChoice,
  WrongBallOption,
  WrongBallOutcome,
} from './wrong-ball-types.ts';

/** A ball as a document gives it: its centre in metres, one standard deviation for each coordinate, and how it came there. */
export type DocumentBall = {
  readonly x: number;
  readonly y: number;
  readonly sd: number;
  readonly arrivedBy?: Arrival | undefined;
};

/** The question which balls are offside after point `hoopScored`. */
export type OffsideDocument = {
  readonly kind: 'offside';
  readonly edition: Edition;
  readonly hoopScored: number;
  readonly striker?: BallColour | undefined;
  readonly certainty: number;
  readonly points: GameLength;
  /** Size of the lawn, metres. */
  readonly lawn: { readonly width: number; readonly length: number };
  readonly balls: Readonly<Partial<Record<BallColour, DocumentBall>>>;
};

/** A set of colours; `primary` is the same as `first`, `secondary` as `second`. */
export type SetName = ColourSet | 'primary' | 'secondary';

/** The question what follows a wrong ball. */
export type WrongBallDocument = {
  readonly kind: 'wrongBall';
  readonly edition: Edition;
  readonly format: Format;
  readonly colours: SetName;
  readonly lastRight: BallColour | null;
  readonly opening: boolean;
  readonly strokes: readonly Stroke[];
};

/** A question to the rules alone. */
export type JudgeDocument = OffsideDocument | WrongBallDocument;

/** The answer on one ball. */
export type JudgedBall = {
  readonly colour: BallColour;
  readonly beyond: number;
  readonly sd: number;
  readonly probability: number;
  readonly lies: Lies;
  readonly verdict: OffsideVerdict;
  readonly code: OffsideCode;
  readonly reason: string;
  readonly rule: string;
};

/** The answer on which balls are offside. */
export type OffsideAnswer = {
  readonly edition: Edition;
  readonly line: HalfwayLine;
  readonly balls: readonly JudgedBall[];
};

/** The answer on a wrong ball. */
export type WrongBallAnswer = {
  readonly edition: Edition;
  readonly wrong: boolean;
  readonly outcome: WrongBallOutcome;
  readonly options: readonly WrongBallOption[];
  readonly choices: readonly WrongBallChoice[];
  readonly putBack: boolean;
  readonly pointsCount: boolean;
  readonly next: { readonly balls: readonly BallColour[] };
  readonly code: string;
  readonly rule: string;
  readonly explanation: string;
};

const answerOffside = (document: OffsideDocument): OffsideAnswer => {
  const { edition, striker, certainty, hoopScored } = document;
  const court = { width: metres(document.lawn.width), length: metres(document.lawn.length) };
  const line = lineAfter(court, HOOP_SEQUENCES[document.points], hoopScored);
  if (line === null)
    throw new RangeError(
      `Expected a point that another follows for hoopScored in a game of ${document.points} but received ${hoopScored}`,
    );
  const entries = Object.entries(document.balls) as [BallColour, DocumentBall][];
  const balls = entries.map(([colour, ball]): JudgedBall => {
    const variance = ball.sd * ball.sd;
    const resting = {
      point: lawnPoint(ball.x, ball.y),
      covariance: { xx: variance, xy: 0, yy: variance },
      arrivedBy: ball.arrivedBy,
    };
    const { edition: _, ...ruling } = judgeOffside(resting, colour, { line, striker, edition, certainty });
    return ruling;
  });
  return { edition, line, balls };
};

const setNamed = (name: SetName): ColourSet => (name === 'primary' || name === 'first' ? 'first' : 'second');

const answerWrongBall = (document: WrongBallDocument): WrongBallAnswer => {
  const ruling = judgeWrongBall({ ...document, set: setNamed(document.colours) });
  return {
    edition: ruling.edition,
    wrong: ruling.wrong,
    outcome: ruling.outcome,
    options: ruling.choices.map((choice) => choice.option),
    choices: ruling.choices,
    putBack: ruling.putBack,
    pointsCount: ruling.pointsCount,
    next: { balls: ruling.next },
    code: ruling.code,
    rule: ruling.rule,
    explanation: ruling.reason,
  };
};

/**
 * The rules' answer to a checked document. Throws a RangeError for a point that no other follows; the document's schema refuses it before.
 */
export function judge(document: OffsideDocument): OffsideAnswer;
export function judge(document: WrongBallDocument): WrongBallAnswer;
export function judge(document: JudgeDocument): OffsideAnswer | WrongBallAnswer;
export function judge(document: JudgeDocument): OffsideAnswer | WrongBallAnswer {
  return document.kind === 'offside' ? answerOffside(document) : answerWrongBall(document);
}
