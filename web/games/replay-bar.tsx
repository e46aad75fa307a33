import { Button } from '@mantine/core';
import style from './games.module.css';
import type { Moment } from './moments.ts';
import { sayEvent } from './say-event.ts';

type Props = {
  readonly moments: readonly Moment[];
  readonly at: number;
  readonly onAt: (at: number) => void;
};

/** Goes through the game turn by turn. */
export const ReplayBar = ({ moments, at, onAt }: Props) => {
  const moment = moments[at]!;
  const last = moments.length - 1;
  return (
    <div className={style.replay}>
      <p aria-live="polite">
        <b>{at === last ? 'Now.' : `Entry ${at + 1} of ${moments.length}.`}</b>{' '}
        {sayEvent(moment.event, moment.before)}
      </p>
      <div className={style.replayButtons}>
        <Button variant="default" disabled={at === 0} onClick={() => onAt(at - 1)}>
          A turn back
        </Button>
        <input
          type="range"
          min={0}
          max={last}
          value={at}
          aria-label="Moment of the game"
          onChange={(event) => onAt(Number(event.currentTarget.value))}
        />
        <Button variant="default" disabled={at === last} onClick={() => onAt(at + 1)}>
          A turn on
        </Button>
      </div>
    </div>
  );
};
