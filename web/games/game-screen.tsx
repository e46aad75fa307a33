import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { Game } from '../service/games.ts';
import { Refusal, sentenceOf } from '../service/request.ts';
import { Message } from '../shell/message.tsx';
import { useGame } from './use-game.ts';

/** Fetches a game and shows it, or says why it cannot. */
export const GameScreen = ({ id, children }: { id: string; children: (game: Game) => ReactNode }) => {
  const { data, error, refetch } = useGame(id);
  if (data) return children(data);
  if (error instanceof Refusal && error.status === 404)
    return (
      <Message title="This game is not there">
        <p>It was deleted, or its address is not complete.</p>
        <Link href="/games">To the games</Link>
      </Message>
    );
  if (error)
    return (
      <Message title="The game could not be fetched">
        <p>{sentenceOf(error)}</p>
        <Button onClick={() => refetch()}>Ask again</Button>
      </Message>
    );
  return <Message title="Fetching the game" />;
};
