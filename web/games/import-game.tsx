import { Button } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { importGame } from '../service/games.ts';
import { newKey } from '../service/new-key.ts';
import { sentenceOf } from '../service/request.ts';

/** Takes in a game that was exported. */
export const ImportGame = () => {
  const input = useRef<HTMLInputElement>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const client = useQueryClient();
  const [, go] = useLocation();
  const take = async (file: File) => {
    setTrouble(null);
    try {
      const game = await importGame(JSON.parse(await file.text()), newKey());
      await client.invalidateQueries({ queryKey: ['games'] });
      go(`/games/${game.id}`);
    } catch (error) {
      setTrouble(
        error instanceof SyntaxError
          ? 'This file is not an exported game. Choose a file that was saved with "Save the log".'
          : sentenceOf(error),
      );
    }
  };
  return (
    <>
      <input
        ref={input}
        type="file"
        accept="application/json,.json"
        hidden
        aria-label="Exported game"
        data-game-file
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (file) take(file);
        }}
      />
      <Button variant="default" onClick={() => input.current?.click()}>
        Take in an exported game
      </Button>
      {trouble && <p role="alert">{trouble}</p>}
    </>
  );
};
