import { Button, Checkbox } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { listReadings, thumbnailAddress } from '../api/readings.ts';
import { sentenceOf } from '../api/request.ts';
import { combine } from '../api/stands.ts';
import { Message } from '../shell/message.tsx';
import { timeOfDay } from '../words/times.ts';
import style from './court.module.css';
import { TogetherAnswer } from './together-answer.tsx';

/** Several pictures of balls that have not moved, read as one. */
export const TogetherPage = () => {
  const { data } = useQuery({ queryKey: ['readings', 'together'], queryFn: () => listReadings({}) });
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const reading = useMutation({ mutationFn: () => combine(chosen) });
  const readings = (data?.readings ?? []).filter(({ kind }) => kind !== 'check');
  const toggle = (id: string, on: boolean) => {
    reading.reset();
    setChosen(on ? [...chosen, id] : chosen.filter((one) => one !== id));
  };
  if (data && readings.length < 2)
    return (
      <Message title="Two readings are needed">
        <p>
          Read two or more pictures of the same position first: of the whole lawn, along the line, or both.
        </p>
      </Message>
    );
  return (
    <div className={style.page}>
      <h1>Pictures of one position</h1>
      <p>Choose readings between which no ball has moved.</p>
      <ul className={style.choose}>
        {readings.slice(0, 12).map(({ id, createdAt, sentence }) => (
          <li key={id}>
            <Checkbox
              size="lg"
              checked={chosen.includes(id)}
              onChange={(event) => toggle(id, event.currentTarget.checked)}
              label={
                <span className={style.chooseFace}>
                  <img src={thumbnailAddress(id)} alt="" width="72" height="54" loading="lazy" />
                  <span>
                    {timeOfDay(createdAt)}: {sentence}
                  </span>
                </span>
              }
            />
          </li>
        ))}
      </ul>
      <Button
        size="lg"
        disabled={chosen.length < 2}
        loading={reading.isPending}
        onClick={() => reading.mutate()}
      >
        {chosen.length < 2 ? 'Choose two or more' : `Read these ${chosen.length} together`}
      </Button>
      {reading.error && <p role="alert">{sentenceOf(reading.error)}</p>}
      {reading.data && <TogetherAnswer answer={reading.data} />}
    </div>
  );
};
