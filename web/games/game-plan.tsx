import { courtOf, hoopsOf } from '../../server/games/state.ts';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { lineAfter } from '../../server/rules/hoop-order.ts';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import { BallPaths } from './ball-paths.tsx';
import type { Moment } from './moments.ts';
import { sayEvent } from './say-event.ts';

/** The halfway line that a moment was judged by, when a hoop was scored in it. */
const lineOf = ({ event, after }: Moment) => {
  if (event.type !== 'turn' && event.type !== 'wrongBall') return null;
  if (event.scored.length === 0) return null;
  return lineAfter(courtOf(after.setup), hoopsOf(after.setup), after.points.length);
};

/** The lawn at a moment of the game, with the way each ball went in it. */
export const GamePlan = ({ moment }: { moment: Moment }) => {
  const { before, after, event } = moment;
  const court = courtOf(after.setup);
  const balls = BALL_COLOURS.flatMap((colour) => {
    const place = after.balls[colour];
    return place ? [{ colour, ...place }] : [];
  });
  return (
    <LawnPlan
      court={court}
      label={`Plan of the lawn after: ${sayEvent(event, before)}`}
      line={lineOf(moment)}
      balls={balls}
      chosen={event.type === 'turn' || event.type === 'wrongBall' ? event.ball : null}
    >
      <BallPaths court={court} before={before?.balls ?? {}} after={after.balls} />
    </LawnPlan>
  );
};
