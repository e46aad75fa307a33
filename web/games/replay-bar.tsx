import { Button } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { Moment } from './moments.ts';
import { sayEvent } from './say-event.ts';
import style from './turns.module.css';

/** How long each moment is shown when the game is played through, ms. */
const SHOWN_FOR = 1300;

type Props = {
  readonly moments: readonly Moment[];
  readonly at: number;
  readonly onAt: (at: number) => void;
};

/** Goes through the game entry by entry, or plays it through. */
export const ReplayBar = ({ moments, at, onAt }: Props) => {
  const [playing, setPlaying] = useState(false);
  const moment = moments[at]!;
  const last = moments.length - 1;
  useEffect(() => {
    if (!playing) return;
    if (at >= last) {
      setPlaying(false);
      return;
    }
    const timer = setTimeout(() => onAt(at + 1), SHOWN_FOR);
    return () => clearTimeout(timer);
  }, [playing, at, last, onAt]);
  const step = (to: number) => {
    setPlaying(false);
    onAt(to);
  };
  const play = () => {
    if (at === last) onAt(0);
    setPlaying(!playing);
  };
  return (
    <div className={style.replay}>
      <p aria-live={playing ? 'off' : 'polite'}>
        <b>{at === last ? 'Now.' : `Entry ${at + 1} of ${moments.length}.`}</b>{' '}
        {sayEvent(moment.event, moment.before)}
      </p>
      <input
        type="range"
        min={0}
        max={last}
        value={at}
        aria-label="Moment of the game"
        aria-valuetext={sayEvent(moment.event, moment.before)}
        onChange={(event) => step(Number(event.currentTarget.value))}
      />
      <div className={style.replayButtons}>
        <Button variant="default" disabled={at === 0} onClick={() => step(at - 1)}>
          A turn back
        </Button>
        <Button variant="default" disabled={last === 0} onClick={play}>
          {playing ? 'Hold it' : 'Play through'}
        </Button>
        <Button variant="default" disabled={at === last} onClick={() => step(at + 1)}>
          A turn on
        </Button>
      </div>
    </div>
  );
};
