import { applyEvent } from '../../server/games/apply-event.ts';
import type { Turn, WrongBall } from '../../server/games/events.ts';
import { expectation } from '../../server/games/order.ts';
import { type GameState, statusOf } from '../../server/games/state.ts';
import { sentence } from '../../server/rules/ruling.ts';
import parts from '../parts/parts.module.css';
import rulingsStyle from './rulings.module.css';
import turnStyle from './turn.module.css';
import { Verdicts } from './verdicts.tsx';

type Props = { readonly state: GameState; readonly event: Turn | WrongBall };

/** What follows when the turn is entered as it stands: said before it is logged, by the same rules. */
export const TurnPreview = ({ state, event }: Props) => {
  // The number of an entry not made yet only has to differ from those before it.
  const applied = applyEvent(state, event, Number.MAX_SAFE_INTEGER);
  if (!applied.ok) return <p className={parts.notice}>{applied.error.message}</p>;
  const after = applied.value;
  if (event.type === 'wrongBall')
    return (
      <div className={rulingsStyle.follows} role="status">
        <p>
          <b>A wrong ball.</b> {after.wrongBall?.reason}{' '}
          <span className="soft">{sentence(after.wrongBall?.rule ?? '')}.</span>
        </p>
        <p>Stop play, and enter it: Sward then says what goes back where.</p>
      </div>
    );
  return (
    <div className={turnStyle.preview} role="status">
      {event.scored.length > 0 && <Verdicts offside={after.offside} />}
      <p>{statusOf(after) === 'won' ? 'That wins the game.' : `${expectation(after)}.`}</p>
    </div>
  );
};
