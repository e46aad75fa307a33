import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { Corrections, PhotoRecord } from '../../server/contract/record.ts';
import { correctReading, getReading } from '../service/readings.ts';
import { Refusal, sentenceOf } from '../service/request.ts';

/** One stored record, asked for again when it may have changed elsewhere. */
export const useReading = (id: string) =>
  useQuery({ queryKey: ['reading', id], queryFn: () => getReading(id), staleTime: 5_000 });

const stackName = (id: string): string => `sward-undo-${id}`;

/** Revisions that undo goes back to, the latest last; kept with the tab so that a reload does not lose them. */
const stackOf = (id: string): number[] => {
  try {
    return JSON.parse(sessionStorage.getItem(stackName(id)) ?? '[]') as number[];
  } catch {
    return [];
  }
};

const keepStack = (id: string, stack: readonly number[]): void => {
  try {
    sessionStorage.setItem(stackName(id), JSON.stringify(stack.slice(-50)));
  } catch {
    // Without storage, undo lasts as long as the page.
  }
};

/** Corrections of a record, each of which can be undone exactly: the server brings the earlier revision back. */
export const useCorrections = (record: PhotoRecord) => {
  const client = useQueryClient();
  const [stack, setStack] = useState(() => stackOf(record.id));
  const [trouble, setTrouble] = useState<string | null>(null);
  const remember = (next: number[]) => {
    setStack(next);
    keepStack(record.id, next);
  };
  const send = useMutation({
    mutationFn: (change: Corrections) => correctReading(record.id, { ...change, revision: record.revision }),
    onMutate: () => setTrouble(null),
    onSuccess: (after) => {
      client.setQueryData(['reading', record.id], after);
      client.invalidateQueries({ queryKey: ['readings'] });
    },
    onError: (error) => {
      setTrouble(sentenceOf(error));
      if (error instanceof Refusal && error.code === 'revision-conflict')
        client.invalidateQueries({ queryKey: ['reading', record.id] });
    },
  });
  return {
    trouble,
    setTrouble,
    busy: send.isPending,
    correct: (change: Corrections) =>
      send.mutateAsync(change).then(
        () => remember([...stack, record.revision]),
        () => undefined,
      ),
    canUndo: stack.length > 0,
    undo: () =>
      send.mutateAsync({ restore: stack.at(-1)! }).then(
        () => remember(stack.slice(0, -1)),
        () => undefined,
      ),
  };
};

/** What `useCorrections` gives. */
export type CorrectionsOf = ReturnType<typeof useCorrections>;
