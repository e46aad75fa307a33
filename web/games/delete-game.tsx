import { Button } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { deleteGame } from '../service/games.ts';
import { sentenceOf } from '../service/request.ts';

/** Deletes a game and its log, asked once. Its readings stay. */
export const DeleteGame = ({ id }: { id: string }) => {
  const [asked, setAsked] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [, go] = useLocation();
  const client = useQueryClient();
  const remove = async () => {
    try {
      await deleteGame(id);
      client.removeQueries({ queryKey: ['game', id] });
      await client.invalidateQueries({ queryKey: ['games'] });
      go('/games');
    } catch (error) {
      setTrouble(sentenceOf(error));
    }
  };
  return (
    <div>
      {asked ? (
        <>
          <Button onClick={remove}>Yes, delete the game and its log</Button>
          <Button variant="subtle" onClick={() => setAsked(false)}>
            Keep it
          </Button>
        </>
      ) : (
        <Button variant="subtle" onClick={() => setAsked(true)}>
          Delete this game
        </Button>
      )}
      {trouble && <p role="alert">{trouble}</p>}
    </div>
  );
};
