import { Button } from '@mantine/core';
import { useState } from 'react';
import type { BallColour } from '../../server/lawn/colours.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName } from '../words/balls.ts';
import style from './forms.module.css';
import type { FormProps } from './game-actions.tsx';

/** A fault in the stroke just played, and what the opponents chose. */
export const FaultForm = ({ game, logging, onDone }: FormProps) => {
  const [by, setBy] = useState<BallColour | null>(null);
  const log = (choice: 'leave' | 'putBack') =>
    by && logging.log({ type: 'fault', by, choice }).then((done) => done && onDone());
  return (
    <div className={style.form}>
      <ChoiceTiles
        label="By the player of"
        across={4}
        value={by}
        onChoose={setBy}
        options={game.state.sides.flatMap(({ balls }) =>
          balls.map((ball) => ({
            value: ball,
            name: ballName(ball),
            face: <BallDisc colour={ball} size={32} />,
          })),
        )}
      />
      <p>The opponents choose:</p>
      <div className={style.choices}>
        <Button variant="default" disabled={!by} loading={logging.busy} onClick={() => log('leave')}>
          Leave the balls
        </Button>
        <Button variant="default" disabled={!by} loading={logging.busy} onClick={() => log('putBack')}>
          Put the balls back
        </Button>
      </div>
    </div>
  );
};
