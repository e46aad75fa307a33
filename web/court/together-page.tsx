import { Button, Checkbox } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useSearch } from 'wouter';
import type { RecordSummary } from '../../server/contract/record.ts';
import parts from '../parts/parts.module.css';
import { getReading, listReadings, thumbnailAddress } from '../service/readings.ts';
import { sentenceOf } from '../service/request.ts';
import { combine } from '../service/stands.ts';
import { Message } from '../shell/message.tsx';
import { timeOfDay } from '../words/times.ts';
import style from './court.module.css';
import { TogetherAnswer } from './together-answer.tsx';

/** The newest readings that are offered; older positions are gone from the lawn. */
const OFFERED = 12;

/** The pictures' answer, and the lawn that they were read on. */
const readTogether = async (ids: readonly string[]) => {
  const [answer, first] = await Promise.all([combine(ids), getReading(ids[0]!)]);
  return { answer, lawn: first.marks.lawn };
};

const Choice = ({ reading, chosen, onChoose }: ChoiceProps) => {
  const { id, createdAt, kind, sentence } = reading;
  return (
    <li>
      <Checkbox
        size="lg"
        checked={chosen > 0}
        onChange={(event) => onChoose(event.currentTarget.checked)}
        label={
          <span className={style.chooseFace}>
            <img src={thumbnailAddress(id)} alt="" width="64" height="48" loading="lazy" />
            <span>
              <b>
                {chosen > 0 && `Picture ${chosen}: `}
                {kind === 'lawn' ? 'whole lawn' : 'along the line'}, {timeOfDay(createdAt)}
              </b>
              <br />
              {sentence}
            </span>
          </span>
        }
      />
    </li>
  );
};
type ChoiceProps = {
  readonly reading: RecordSummary;
  /** Its number among the chosen, from 1; 0 when it is not chosen. */
  readonly chosen: number;
  readonly onChoose: (on: boolean) => void;
};

/** Several pictures of balls that have not moved, read as one. */
export const TogetherPage = () => {
  const begun = new URLSearchParams(useSearch()).get('with');
  const { data, error } = useQuery({ queryKey: ['readings', 'together'], queryFn: () => listReadings({}) });
  const [chosen, setChosen] = useState<readonly string[]>(begun ? [begun] : []);
  const reading = useMutation({ mutationFn: () => readTogether(chosen) });
  const readings = (data?.readings ?? []).filter(({ kind }) => kind !== 'check');
  const choose = (id: string, on: boolean) => {
    reading.reset();
    setChosen(on ? [...chosen, id] : chosen.filter((one) => one !== id));
  };
  if (error) return <Message title="The readings could not be fetched">{sentenceOf(error)}</Message>;
  if (data && readings.length < 2)
    return (
      <Message title="Two readings are needed">
        <p>
          Read two or more pictures of the same position first: of the whole lawn, along the line, or both.
        </p>
        <Link href="/">Take a picture</Link>
      </Message>
    );
  return (
    <div className={parts.wide}>
      <h1>Pictures of one position</h1>
      <p>
        Choose readings between which no ball has moved. Together they are surer than the best of them alone.
      </p>
      <ul className={style.choose}>
        {readings.slice(0, OFFERED).map((one) => (
          <Choice
            key={one.id}
            reading={one}
            chosen={chosen.indexOf(one.id) + 1}
            onChoose={(on) => choose(one.id, on)}
          />
        ))}
      </ul>
      <div className={style.buttons}>
        <Button
          size="lg"
          disabled={chosen.length < 2}
          loading={reading.isPending}
          onClick={() => reading.mutate()}
        >
          {chosen.length < 2 ? 'Choose two or more' : `Read these ${chosen.length} together`}
        </Button>
      </div>
      {reading.error && (
        <p role="alert" className={parts.notice}>
          {sentenceOf(reading.error)}
        </p>
      )}
      {reading.data && <TogetherAnswer {...reading.data} />}
    </div>
  );
};
