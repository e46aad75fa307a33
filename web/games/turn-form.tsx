import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { GameEvent } from '../../server/games/events.ts';
import { nextBalls } from '../../server/games/order.ts';
import { courtOf } from '../../server/games/state.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';
import parts from '../parts/parts.module.css';
import { BallDisc } from '../plan/ball-disc.tsx';
import type { Game } from '../service/games.ts';
import { ballName, listed } from '../words/balls.ts';
import { DragPlan } from './drag-plan.tsx';
import style from './turn.module.css';
import { type TurnBase, type TurnDraft, type TurnUnderstood, understand } from './turn-draft.ts';
import { TurnPicture } from './turn-picture.tsx';
import { TurnPreview } from './turn-preview.tsx';
import { TurnQuestions } from './turn-questions.tsx';
import { useLog } from './use-game.ts';
import { useKeptTurn } from './use-kept-turn.ts';

/** How a turn changes entries that are there already; null for a new turn. */
export type TurnChange = { readonly how: 'replace' | 'insertAfter'; readonly entry: number } | null;

type Props = {
  readonly game: Game;
  readonly base: TurnBase;
  readonly start: TurnDraft;
  readonly change: TurnChange;
};

const Title = ({ base, change }: Pick<Props, 'base' | 'change'>) => {
  const due = nextBalls(base.state);
  if (change?.how === 'replace') return <h1>Correct this turn</h1>;
  return (
    <h1 className={style.turnTitle}>
      {due.map((ball) => (
        <BallDisc key={ball} colour={ball} size={40} />
      ))}
      <span>
        {change ? 'A forgotten turn' : `Turn ${base.state.turns + 1}`}
        {due.length > 0 && `, ${listed(due.map(ballName)).replace(' and ', ' or ')} to play`}
      </span>
    </h1>
  );
};

/** What the picture or the hand has shown so far, in a sentence. */
const Seen = ({ base, turn }: { base: TurnBase; turn: TurnUnderstood }) => {
  const { proposal } = turn;
  const moved = proposal.moved.map(ballName);
  const unseen = proposal.changes.filter(({ change }) => change === 'notSeen').map(({ ball }) => ball);
  if (!base.reading)
    return moved.length > 0 ? (
      <p>{listed(moved)} moved.</p>
    ) : (
      <p>Drag each ball that moved to where it lies now.</p>
    );
  return (
    <p>
      {moved.length === 0
        ? 'By the picture no ball has moved by more than it can tell.'
        : `By the picture, ${listed(moved)} moved.`}
      {unseen.length > 0 &&
        ` ${listed(unseen.map(ballName))} cannot be seen on it: drag it to its place, or leave it where it lay.`}{' '}
      <Link href={`/call/${base.reading}`}>Photo and call</Link>
    </p>
  );
};

/** Which turn is being entered: of which game, after how many entries, from which picture, as which correction. */
const turnName = ({ game, base, change }: Pick<Props, 'game' | 'base' | 'change'>): string =>
  ['sward-turn', game.id, game.version, base.reading, change?.how, change?.entry].join(' ');

/** The form of one turn: places, what no picture shows, and what follows. */
export const TurnForm = ({ game, base, start, change }: Props) => {
  const { draft, edit, forget } = useKeptTurn(turnName({ game, base, change }), start);
  const [reason, setReason] = useState('');
  const logging = useLog(game);
  const [, go] = useLocation();
  const { state } = base;
  const turn = understand(base, draft);
  const say = (part: Partial<TurnDraft>) => edit((now) => ({ ...now, ...part }));
  const submit = async () => {
    if (!turn.event) return;
    const why = reason.trim() && { reason: reason.trim() };
    const entry: GameEvent = change
      ? { type: 'correction', ...change, ...why, event: turn.event }
      : turn.event;
    if (!(await logging.log(entry))) return;
    forget();
    go(`/games/${game.id}`);
  };
  return (
    <>
      <div className={style.turn}>
        <Title base={base} change={change} />
        <div className={style.turnPlan}>
          <DragPlan
            court={courtOf(state.setup)}
            balls={BALL_ORDER[state.setup.colours]}
            before={state.balls}
            now={turn.places}
            onPlace={(ball, place) => edit((now) => ({ ...now, put: { ...now.put, [ball]: place } }))}
          />
          <Seen base={base} turn={turn} />
          {!base.reading && <TurnPicture game={game} state={state} change={change} />}
        </div>
        <div className={style.turnWords}>
          <TurnQuestions state={state} draft={draft} turn={turn} onDraft={say} />
          {change && (
            <TextInput
              label="Why it is corrected, if you like"
              value={reason}
              maxLength={500}
              onChange={(event) => setReason(event.currentTarget.value)}
            />
          )}
          {turn.event && <TurnPreview state={state} event={turn.event} />}
          <Link href={`/games/${game.id}`} className={parts.link ?? ''}>
            Back to the game without entering anything
          </Link>
        </div>
      </div>
      <div className={`${parts.foot} ${style.footAboveNav} ${style.turnFoot}`}>
        {turn.open.length > 0 && <p className="soft">Still to say: {listed(turn.open)}.</p>}
        {logging.trouble && (
          <p role="alert" className={parts.notice}>
            {logging.trouble}
          </p>
        )}
        <Button size="lg" fullWidth disabled={!turn.event} loading={logging.busy} onClick={submit}>
          {change
            ? 'Enter the correction'
            : turn.event?.type === 'wrongBall'
              ? 'Enter the wrong ball'
              : 'Enter the turn'}
        </Button>
      </div>
    </>
  );
};
