import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { Begun, Placements } from '../../server/games/events.ts';
import { metres } from '../../server/units/numbers.ts';
import { DragPlan } from './drag-plan.tsx';
import style from './forms.module.css';
import type { FormProps } from './game-actions.tsx';

/** Balls put back or measured again without a stroke: an interference, a ball lifted for the other game. */
export const MeasureForm = ({ game, logging, onDone }: FormProps) => {
  const [positions, setPositions] = useState<Placements>({});
  const [reason, setReason] = useState('');
  const { lawn } = game.events[0]!.event as Begun;
  const log = () =>
    logging
      .log({ type: 'ballsPutBack', positions, ...(reason.trim() && { reason: reason.trim() }) })
      .then((done) => done && onDone());
  return (
    <div className={style.form}>
      <DragPlan
        court={{ width: metres(lawn.width), length: metres(lawn.length) }}
        balls={game.state.sides.flatMap(({ balls }) => balls)}
        before={game.state.balls}
        now={{ ...game.state.balls, ...positions }}
        onPlace={(ball, place) => setPositions({ ...positions, [ball]: place })}
      />
      <TextInput
        label="Why"
        placeholder="A ball of the other game ran into it"
        value={reason}
        maxLength={500}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <Button disabled={Object.keys(positions).length === 0} loading={logging.busy} onClick={log}>
        Log these places
      </Button>
    </div>
  );
};
