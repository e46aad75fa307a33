import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useRef } from 'react';
import type { Entry, GameEvent } from '../../server/games/events.ts';
import { addEvents, type Game, getGame } from '../service/games.ts';
import { newKey } from '../service/new-key.ts';
import { Refusal, sentenceOf } from '../service/request.ts';

/** One game, asked for again every few seconds: others may be logging it too. */
export const useGame = (id: string) =>
  useQuery({ queryKey: ['game', id], queryFn: () => getGame(id), refetchInterval: 15_000 });

/** The entries of a game in the form in which the rules replay them. */
export const entriesOf = (game: Game): readonly Entry[] => game.events;

/** Adds to a game's log. What is sent again after a lost answer is the same request under the same key, so it is logged once. */
export const useLog = (game: Game) => {
  const client = useQueryClient();
  const sending = useRef<{ key: string; version: number; text: string } | null>(null);
  const keyFor = (version: number, events: readonly GameEvent[]): string => {
    const text = JSON.stringify(events);
    if (sending.current?.text !== text || sending.current.version !== version)
      sending.current = { key: newKey(), version, text };
    return sending.current.key;
  };
  const send = useMutation({
    mutationFn: (events: readonly GameEvent[]) =>
      addEvents(game.id, game.version, events, keyFor(game.version, events)),
    onSuccess: (after) => {
      sending.current = null;
      client.setQueryData(['game', game.id], after);
      client.invalidateQueries({ queryKey: ['games'] });
    },
    onError: (error) => {
      if (error instanceof Refusal && error.code === 'version-conflict')
        client.invalidateQueries({ queryKey: ['game', game.id] });
    },
  });
  return {
    busy: send.isPending,
    trouble: send.error ? sentenceOf(send.error) : null,
    /** Resolves true when the entry is in the log. */
    log: (...events: readonly GameEvent[]): Promise<boolean> =>
      send.mutateAsync(events).then(
        () => true,
        () => false,
      ),
  };
};

/** What `useLog` gives. */
export type Logging = ReturnType<typeof useLog>;
