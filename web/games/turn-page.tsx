import { useMemo } from 'react';
import { Link, useSearchParams } from 'wouter';
import type { GameState } from '../../server/games/state.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';
import { useReading } from '../reading/use-reading.ts';
import type { Game } from '../service/games.ts';
import { Message } from '../shell/message.tsx';
import { GameScreen } from './game-screen.tsx';
import { type Moment, momentsOf } from './moments.ts';
import { BLANK_TURN, baseOfReading, draftOf, type TurnDraft } from './turn-draft.ts';
import { type TurnChange, TurnForm } from './turn-form.tsx';

const changeIn = (search: URLSearchParams): TurnChange => {
  const [correct, after] = [Number(search.get('correct')), Number(search.get('after'))];
  if (correct) return { how: 'replace', entry: correct };
  return after ? { how: 'insertAfter', entry: after } : null;
};

/** The draft to begin with: what the entry to be corrected says, or nothing. */
const startOf = ({ event, after }: Moment, change: TurnChange): TurnDraft =>
  change?.how === 'replace' && (event.type === 'turn' || event.type === 'wrongBall')
    ? draftOf(event, BALL_ORDER[after.setup.colours])
    : BLANK_TURN;

/** Entering a turn: a new one, one that corrects an entry, or one forgotten after an entry. */
const Entering = ({ game }: { game: Game }) => {
  const [search] = useSearchParams();
  const moments = momentsOf(game.events);
  const change = changeIn(search);
  const moment = change ? moments.find(({ number }) => number === change.entry) : moments.at(-1);
  const state = change?.how === 'replace' ? moment?.before : moment?.after;
  if (!moment || !state)
    return (
      <Message title="This entry is not in force">
        <p>It was taken out or corrected meanwhile.</p>
        <Link href={`/games/${game.id}`}>To the game</Link>
      </Message>
    );
  const reading = search.get('reading');
  if (reading)
    return <FromReading key={reading} game={game} state={state} reading={reading} change={change} />;
  const { event } = moment;
  const own = change?.how === 'replace' && 'reading' in event ? (event.reading ?? null) : null;
  return (
    <TurnForm
      key={`${game.version} ${search}`}
      game={game}
      base={{ state, seen: {}, reading: own, pointSeen: false }}
      start={startOf(moment, change)}
      change={change}
    />
  );
};

type FromProps = {
  readonly game: Game;
  readonly state: GameState;
  readonly reading: string;
  readonly change: TurnChange;
};

const FromReading = ({ game, state, reading, change }: FromProps) => {
  const { data, error } = useReading(reading);
  const base = useMemo(() => (data ? baseOfReading(data, state) : null), [data, state]);
  if (error)
    return (
      <Message title="This picture is not there">
        <p>It was deleted, or its address is not complete.</p>
        <Link href={`/games/${game.id}/turn`}>Enter the turn without it</Link>
      </Message>
    );
  if (!data || !base) return <Message title="Fetching the picture's places" />;
  return (
    <TurnForm
      key={`${reading} ${data.revision}`}
      game={game}
      base={base}
      start={BLANK_TURN}
      change={change}
    />
  );
};

/** A turn's entry, ten seconds long: the picture or the plan, who played, what touched, what scored. */
export const TurnPage = ({ id }: { id: string }) => (
  <GameScreen id={id}>{(game) => <Entering game={game} />}</GameScreen>
);
