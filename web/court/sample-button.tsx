import { Button } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useLocation } from 'wouter';
import type { Sample } from '../../server/contract/photo.ts';
import { startSample } from '../home/start-sample.ts';
import { sentenceOf } from '../service/request.ts';
import style from './court.module.css';

/** Has a sample picture read, already marked; nothing when there is no such sample. */
export const SampleButton = ({ sample, label }: { sample: Sample | undefined; label: string }) => {
  const [, go] = useLocation();
  const start = useMutation({ mutationFn: startSample, onSuccess: (draft) => go(`/marks/${draft}`) });
  if (!sample) return null;
  return (
    <div className={style.buttons}>
      <Button variant="subtle" loading={start.isPending} onClick={() => start.mutate(sample)}>
        {label}
      </Button>
      {start.error && <p role="alert">{sentenceOf(start.error)}</p>}
    </div>
  );
};
