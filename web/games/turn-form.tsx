import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { GameEvent } from '../../server/games/events.ts';
import type { TurnProposal } from '../../server/games/propose-turn.ts';
import { courtOf, type GameState } from '../../server/games/state.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';
import type { Game } from '../api/games.ts';
import { DragPlan } from './drag-plan.tsx';
import style from './games.module.css';
import { eventOf, placesNow, type TurnDraft } from './turn-draft.ts';
import { TurnPicture } from './turn-picture.tsx';
import { TurnQuestions } from './turn-questions.tsx';
import { useLog } from './use-game.ts';

/** How a turn changes entries that are there already; null for a new turn. */
export type TurnChange = { readonly how: 'replace' | 'insertAfter'; readonly entry: number } | null;

type Props = {
  readonly game: Game;
  /** The game before this turn. */
  readonly state: GameState;
  readonly start: TurnDraft;
  readonly proposal: TurnProposal | null;
  readonly change: TurnChange;
};

const TITLES = { replace: 'Correct this turn', insertAfter: 'A forgotten turn' } as const;

/** The form of one turn. */
export const TurnForm = ({ game, state, start, proposal, change }: Props) => {
  const [draft, setDraft] = useState(start);
  const logging = useLog(game);
  const [, go] = useLocation();
  const event = eventOf(state, draft);
  const submit = async () => {
    if (!event) return;
    const entry: GameEvent = change ? { type: 'correction', ...change, event } : event;
    if (await logging.log(entry)) go(`/games/${game.id}`);
  };
  return (
    <div className={style.turn}>
      <div className={style.turnPlan}>
        <DragPlan
          court={courtOf(state.setup)}
          balls={BALL_ORDER[state.setup.colours]}
          before={state.balls}
          now={placesNow(state, draft)}
          onPlace={(ball, place) =>
            setDraft((now) => ({ ...now, positions: { ...now.positions, [ball]: place } }))
          }
        />
        <p className="soft">Drag each ball that moved to where it lies now.</p>
      </div>
      <div className={style.turnWords}>
        <h1>{change ? TITLES[change.how] : 'This turn'}</h1>
        {!change && !draft.reading && <TurnPicture game={game} />}
        <TurnQuestions state={state} draft={draft} proposal={proposal} onDraft={setDraft} />
        {event?.type === 'wrongBall' && (
          <p role="status" className={style.follows}>
            That ball was not due: it is logged as a wrong ball, and Sward says what follows.
          </p>
        )}
        {logging.trouble && (
          <p role="alert" className={style.trouble}>
            {logging.trouble}
          </p>
        )}
        <Button size="lg" disabled={!event} loading={logging.busy} onClick={submit}>
          {event ? 'Log this turn' : 'Say which ball was played'}
        </Button>
        <Button variant="subtle" component={Link} href={`/games/${game.id}`}>
          Back to the game
        </Button>
      </div>
    </div>
  );
};
