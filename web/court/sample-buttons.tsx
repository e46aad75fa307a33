import { Button } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useLocation } from 'wouter';
import type { Sample } from '../../server/contract/photo.ts';
import { startSample } from '../home/start-sample.ts';
import { sentenceOf } from '../service/request.ts';
import style from './court.module.css';

/** Has a sample picture read, already marked: the first under `label`, the others under their titles. Nothing without samples. */
export const SampleButtons = ({ samples, label }: { samples: readonly Sample[]; label: string }) => {
  const [, go] = useLocation();
  const start = useMutation({ mutationFn: startSample, onSuccess: (draft) => go(`/marks/${draft}`) });
  if (samples.length === 0) return null;
  return (
    <div className={style.buttons}>
      {samples.map((sample, i) => (
        <Button
          key={sample.name}
          variant="subtle"
          px={0}
          loading={start.isPending && start.variables === sample}
          disabled={start.isPending}
          onClick={() => start.mutate(sample)}
        >
          {i === 0 ? label : sample.title}
        </Button>
      ))}
      {start.error && <p role="alert">{sentenceOf(start.error)}</p>}
    </div>
  );
};
