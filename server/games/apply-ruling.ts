import { toPenaltyCentre } from '../lawn/penalty-area.ts';
import { otherSide, setOf, sideName, sideOf } from '../rules/ball-order.ts';
import { areaOf, giveDirection, openDirections } from '../rules/directions.ts';
import { judgeFault } from '../rules/fault.ts';
import { directedPlace, penaltyRadius } from '../rules/penalty-areas.ts';
import { metres } from '../units/numbers.ts';
import { lawnPoint } from '../units/points.ts';
import { err, ok, type Result } from '../units/result.ts';
import { overruleWrongBall } from './apply-remedy.ts';
import type { DirectionGiven, Fault, Overrule, Placement } from './events.ts';
import { type Refusal, refusal } from './refusal.ts';
import { afterMeasuring, afterWrong } from './resting.ts';
import { atTurnEnd, directionsAfter } from './scoring-turn.ts';
import { courtOf, type GameState, type LastStroke } from './state.ts';

/** Standard deviation of a ball that was set down by hand on a mark, metres: half a ball. No source. */
const SET_DOWN_SD = 0.023;
/** How many standard deviations a directed ball's measured place may lie outside its area before the place is refused. */
const PLACE_SLACK = 3;

/** Where the directed ball is: as logged, or on the middle of the area's boundary. */
const directedTo = (state: GameState, given: DirectionGiven, side: 'west' | 'east'): Placement => {
  const { x, y } = directedPlace(courtOf(state.setup), side);
  return given.place ?? { x, y, sdX: SET_DOWN_SD, sdY: SET_DOWN_SD, correlation: 0, origin: 'placed' };
};

const checkPlace = (state: GameState, place: Placement, side: 'west' | 'east'): Refusal | null => {
  const { setup } = state;
  const radius = penaltyRadius(setup.edition, metres(setup.penaltyRadius));
  const distance = toPenaltyCentre(courtOf(setup), side, lawnPoint(place.x, place.y));
  const slack = PLACE_SLACK * Math.max(place.sdX, place.sdY, SET_DOWN_SD);
  if (distance <= radius + slack) return null;
  return refusal(
    'outsideArea',
    `The ${side} penalty area reaches ${radius.toFixed(2)} m from the midpoint of its boundary, but the ball lies ${distance.toFixed(2)} m from it; place it inside.`,
  );
};

/** The opponents' word on an offside ball; a ball directed to a penalty area is moved at once. */
export const applyDirection = (
  state: GameState,
  given: DirectionGiven,
  entry: number,
): Result<GameState, Refusal> => {
  const { ball, choice, by } = given;
  const chooser = otherSide(sideOf(ball));
  if (by && (setOf(by) !== setOf(ball) || sideOf(by) !== chooser))
    return err(
      refusal(
        'directionRefused',
        `Only ${sideName(setOf(ball), chooser)} may direct ${ball}, but the player of ${by} was named.`,
      ),
    );
  const ruling = giveDirection(state.directions, ball, choice, state.setup.edition);
  if (!ruling.accepted) return err(refusal('directionRefused', ruling.reason));
  const directed: GameState = { ...state, directions: ruling.directions };
  const side = areaOf(choice);
  if (side === null) return ok(directed);
  const place = directedTo(state, given, side);
  const refused = checkPlace(state, place, side);
  if (refused) return err(refused);
  const balls = { ...state.balls, [ball]: { ...place, arrivedBy: { directedTo: side }, since: entry } };
  return ok({ ...directed, balls });
};

/** The faulty stroke undone, except that it was played: the turn is over and pending directions have lapsed. */
const faultPutBack = (state: GameState, stroke: LastStroke): GameState => ({
  ...state,
  ...stroke.before,
  directions: directionsAfter(state, stroke, stroke.before.directions),
  turns: state.turns,
});

const faultLeft = (
  state: GameState,
  stroke: LastStroke,
  fault: Fault,
  scored: readonly string[],
): GameState => {
  const earlier = stroke.before.points;
  const kept = state.points.filter((point) => point.entry === stroke.entry && scored.includes(point.ball));
  const points = [...earlier, ...kept.map((point, i) => ({ ...point, point: earlier.length + i + 1 }))];
  const left: GameState = {
    ...state,
    points,
    balls: afterWrong(state.balls, stroke.entry, fault.by),
    offside: stroke.before.offside,
    directions: directionsAfter(state, stroke, stroke.before.directions),
  };
  return atTurnEnd(left, stroke.ball, stroke.entry);
};

/** A fault in the stroke just played. */
export const applyFault = (state: GameState, fault: Fault, entry: number): Result<GameState, Refusal> => {
  const stroke = state.lastStroke;
  const directed = state.directions.some(({ state: given }) => given === 'west' || given === 'east');
  if (stroke === null || state.wrongBall || directed)
    return err(
      refusal(
        'noStroke',
        'A fault belongs to the stroke just played, before anything else is done about it; correct the entry of the stroke instead.',
      ),
    );
  if (setOf(fault.by) !== state.setup.colours)
    return err(
      refusal('otherColours', `This game is played without ${fault.by}; name a ball of its own colours.`),
    );
  const ruling = judgeFault({
    edition: state.setup.edition,
    striker: stroke.ball,
    offender: fault.by,
    scored: stroke.scored,
    choice: fault.choice,
  });
  const judged = ruling.putBack
    ? faultPutBack(state, stroke)
    : faultLeft(state, stroke, fault, ruling.points);
  return ok({
    ...judged,
    balls: afterMeasuring(judged.balls, fault.positions, entry),
    lastStroke: null,
  });
};

/** A referee's verdict on a ball of the scoring turn just ended, before the next stroke. */
const overruleOffside = (
  state: GameState,
  overrule: Extract<Overrule, { subject: 'offside' }>,
): Result<GameState, Refusal> => {
  const { ball, verdict, reason } = overrule;
  const current = state.lastStroke === null || state.lastStroke.scored.length > 0;
  if (!current || !state.offside.some(({ colour }) => colour === ball))
    return err(
      refusal(
        'notOffsideNow',
        `There is no verdict on ${ball} to overrule: it was not judged in the turn just played.`,
      ),
    );
  const offside = state.offside.map((ruling) =>
    ruling.colour === ball ? { ...ruling, verdict, reason: `By the referee: ${reason}` } : ruling,
  );
  const others = state.directions.filter((direction) => direction.ball !== ball);
  const own = state.directions.filter((direction) => direction.ball === ball);
  const pending = own.length > 0 ? own : openDirections([ball]);
  return ok({ ...state, offside, directions: verdict === 'offside' ? [...others, ...pending] : others });
};

/** A referee decides otherwise; the decision and its reason are kept. */
export const applyOverrule = (
  state: GameState,
  overrule: Overrule,
  entry: number,
): Result<GameState, Refusal> => {
  const keep = (next: GameState): GameState => ({
    ...next,
    overrules: [...state.overrules, { entry, overrule }],
  });
  if (overrule.subject === 'other') return ok(keep(state));
  const decided =
    overrule.subject === 'offside' ? overruleOffside(state, overrule) : overruleWrongBall(state, overrule);
  return decided.ok ? ok(keep(decided.value)) : decided;
};
