import { Button } from '@mantine/core';
import { useMemo } from 'react';
import { openWrongBall } from '../../server/games/wrong-ball-help.ts';
import type { Game } from '../api/games.ts';
import { ballName, listed } from '../words/balls.ts';
import style from './games.module.css';
import { momentsOf } from './moments.ts';
import { PutBackLines } from './put-back-lines.tsx';
import type { Logging } from './use-game.ts';

/** What each remedy's button says. */
export const REMEDY_WORDS = {
  replaceAndReplay: 'Put the balls back and play the turn again',
  annul: 'Annul the stroke and put the balls back',
  ballSwap: 'Change the two balls of the side',
  leave: 'Leave the balls where they are',
  putBack: 'Put the balls back',
} as const;

/** A wrong ball that has not been settled: what the edition says, what may be done, and where balls go back. */
export const WrongBallNow = ({ game, logging }: { game: Game; logging: Logging }) => {
  const help = useMemo(() => {
    const last = momentsOf(game.events).at(-1);
    return last ? openWrongBall(last.after) : null;
  }, [game.events]);
  if (!help) return null;
  const { ruling, remedies, putBack } = help;
  return (
    <div className={style.follows}>
      <p>
        <b>A wrong ball was played. Stop play.</b> {ruling.reason} <span className="soft">{ruling.rule}</span>
      </p>
      {ruling.next.length > 0 && (
        <p>Next plays {listed(ruling.next.map(ballName)).replace(' and ', ' or ')}.</p>
      )}
      <div className={style.choices}>
        {remedies.map((choice) => (
          <Button
            key={choice}
            variant="default"
            loading={logging.busy}
            onClick={() => logging.log({ type: 'remedy', choice })}
          >
            {REMEDY_WORDS[choice]}
          </Button>
        ))}
      </div>
      {remedies.length === 0 && (
        <p>Ask a referee, and enter the decision below under "The referee decides".</p>
      )}
      {putBack.length > 0 && (
        <details className={style.more}>
          <summary>Where the balls lay before</summary>
          <PutBackLines lines={putBack} />
        </details>
      )}
    </div>
  );
};
