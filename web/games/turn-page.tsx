import { useMemo } from 'react';
import { useSearchParams } from 'wouter';
import type { Game } from '../api/games.ts';
import { useReading } from '../reading/use-reading.ts';
import { Message } from '../shell/message.tsx';
import { GameScreen } from './game-screen.tsx';
import { momentsOf } from './moments.ts';
import { blankTurn, turnFrom, turnFromReading } from './turn-draft.ts';
import { TurnForm } from './turn-form.tsx';

/** Entering a turn: a new one, one that corrects an entry, or one forgotten after an entry. */
const Entering = ({ game }: { game: Game }) => {
  const [search] = useSearchParams();
  const moments = useMemo(() => momentsOf(game.events), [game.events]);
  const correct = Number(search.get('correct') ?? 0);
  const after = Number(search.get('after') ?? 0);
  const moment = moments.find(({ number }) => number === (correct || after)) ?? moments.at(-1);
  const state = correct ? moment?.before : moment?.after;
  if (!moment || !state) return <Message title="This game's log cannot be played through" />;
  const reading = search.get('reading');
  const change = correct
    ? ({ how: 'replace', entry: correct } as const)
    : after
      ? ({ how: 'insertAfter', entry: after } as const)
      : null;
  if (reading) return <FromReading game={game} state={state} id={reading} change={change} />;
  const { event } = moment;
  const start =
    correct && (event.type === 'turn' || event.type === 'wrongBall') ? turnFrom(event) : blankTurn(state);
  return (
    <TurnForm
      key={`${game.version} ${correct} ${after}`}
      game={game}
      state={state}
      start={start}
      proposal={null}
      change={change}
    />
  );
};

type FromProps = Omit<Parameters<typeof TurnForm>[0], 'start' | 'proposal'> & { readonly id: string };

const FromReading = ({ id, ...rest }: FromProps) => {
  const { data } = useReading(id);
  const proposed = useMemo(() => (data ? turnFromReading(data, rest.state) : null), [data, rest.state]);
  if (!proposed) return <Message title="Fetching the reading" />;
  return <TurnForm key={id} {...rest} start={proposed.draft} proposal={proposed.proposal} />;
};

/** A turn's entry, ten seconds long: the picture or the plan, who played, what touched, what scored. */
export const TurnPage = ({ id }: { id: string }) => (
  <GameScreen id={id}>{(game) => <Entering game={game} />}</GameScreen>
);
