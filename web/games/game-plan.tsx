import { courtOf, hoopsOf } from '../../server/games/state.ts';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { lineAfter } from '../../server/rules/hoop-order.ts';
import { penaltyRadius } from '../../server/rules/penalty-areas.ts';
import { metres } from '../../server/units/numbers.ts';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import type { PlanBall } from '../plan/plan-balls.tsx';
import { BallPaths } from './ball-paths.tsx';
import { isPlay, type Moment } from './moments.ts';
import { PenaltyAreas } from './penalty-areas.tsx';
import { sayEvent } from './say-event.ts';
import { useTravel } from './use-travel.ts';

/** The halfway line that a moment was judged by: when a hoop was scored in it, and while the balls it made offside are directed. */
const lineOf = ({ event, after }: Moment) => {
  const judged = isPlay(event) ? event.scored.length > 0 : event.type === 'direction';
  if (!judged) return null;
  return lineAfter(courtOf(after.setup), hoopsOf(after.setup), after.points.length);
};

/** Balls on their way: each at the share of its path that it has gone. */
const ballsAt = ({ before, after }: Moment, share: number): PlanBall[] =>
  BALL_COLOURS.flatMap((colour) => {
    const to = after.balls[colour];
    if (!to) return [];
    const from = before?.balls[colour] ?? to;
    const between = (a: number, b: number) => a + (b - a) * share;
    return [{ colour, ...to, x: between(from.x, to.x), y: between(from.y, to.y) }];
  });

type Props = { readonly moment: Moment; readonly moving: boolean };

/** The lawn at a moment of the game, with the way each ball went in it. */
export const GamePlan = ({ moment, moving }: Props) => {
  const { before, after, event } = moment;
  const { setup } = after;
  const court = courtOf(setup);
  const share = useTravel(moment.number, moving);
  const balls = ballsAt(moment, share);
  const now = Object.fromEntries(balls.map((ball) => [ball.colour, ball]));
  const directed = after.directions.some(({ state }) => state !== 'lapsed');
  return (
    <LawnPlan
      court={court}
      label={`Plan of the lawn after: ${sayEvent(event, before)}`}
      line={lineOf(moment)}
      balls={balls}
      chosen={isPlay(event) ? event.ball : null}
    >
      {directed && (
        <PenaltyAreas court={court} radius={penaltyRadius(setup.edition, metres(setup.penaltyRadius))} />
      )}
      <BallPaths court={court} before={before?.balls ?? {}} now={now} />
    </LawnPlan>
  );
};
