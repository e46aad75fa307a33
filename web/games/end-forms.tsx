import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import { ballName, listed } from '../words/balls.ts';
import style from './forms.module.css';
import type { FormProps } from './game-actions.tsx';

/** Play stops, to be taken up another day: the places of the balls are the last ones logged. */
export const SuspendForm = ({ logging, onDone }: FormProps) => {
  const [reason, setReason] = useState('');
  const stop = () =>
    logging
      .log({ type: 'suspended', ...(reason.trim() && { reason: reason.trim() }) })
      .then((done) => done && onDone());
  return (
    <div className={style.form}>
      <p>The card "Where to put balls back" holds every ball's place for the day you go on.</p>
      <TextInput
        label="Why"
        placeholder="Failing light"
        value={reason}
        maxLength={500}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <Button loading={logging.busy} onClick={stop}>
        Stop for today
      </Button>
    </div>
  );
};

const REASONS = [
  { value: 'time', face: 'Time was up' },
  { value: 'conceded', face: 'Conceded' },
  { value: 'abandoned', face: 'Given up' },
] as const;

/** The game ends before a side has the points that win. */
export const EndForm = ({ game, logging, onDone }: FormProps) => {
  const [reason, setReason] = useState<'time' | 'conceded' | 'abandoned'>('time');
  const [winner, setWinner] = useState<'0' | '1' | 'none'>('none');
  const end = () =>
    logging
      .log({ type: 'ended', reason, winner: winner === 'none' ? null : (Number(winner) as 0 | 1) })
      .then((done) => done && onDone());
  return (
    <div className={style.form}>
      <ChoiceTiles label="Why it ends" across={3} value={reason} onChoose={setReason} options={REASONS} />
      <ChoiceTiles
        label="Who has won"
        across={3}
        value={winner}
        onChoose={setWinner}
        options={[
          ...game.state.sides.map(({ side, balls }) => ({
            value: String(side) as '0' | '1',
            face: listed(balls.map(ballName)),
          })),
          { value: 'none' as const, face: 'Nobody' },
        ]}
      />
      <Button loading={logging.busy} onClick={end}>
        End the game
      </Button>
    </div>
  );
};
