import { Button } from '@mantine/core';
import { useMemo } from 'react';
import { sideName } from '../../server/rules/ball-order.ts';
import type { Game } from '../api/games.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName } from '../words/balls.ts';
import { Directions } from './directions.tsx';
import style from './games.module.css';
import { momentsOf } from './moments.ts';
import type { Logging } from './use-game.ts';
import { WrongBallNow } from './wrong-ball-now.tsx';

const WORDS = {
  offside: 'offside',
  excused: 'past the line and may stay',
  historyNeeded: 'past the line; how it came there must be said',
  onside: 'onside',
  tooClose: 'too close to call',
} as const;

const capital = (text: string): string => text[0]!.toUpperCase() + text.slice(1);

/** The rules' word on each ball after the turn that scored; nothing of balls that are plainly onside. */
const Verdicts = ({ game }: { game: Game }) => {
  const told = game.state.offside.filter(({ verdict }) => verdict !== 'onside');
  if (told.length === 0) return null;
  return (
    <ul className={style.verdicts}>
      {told.map(({ colour, verdict, reason }) => (
        <li key={colour}>
          <BallDisc colour={colour} size={30} />
          <span>
            <b>
              {ballName(colour)} is {WORDS[verdict]}.
            </b>{' '}
            {reason}
          </span>
        </li>
      ))}
    </ul>
  );
};

const Won = ({ game, logging }: { game: Game; logging: Logging }) => {
  const moments = useMemo(() => momentsOf(game.events), [game.events]);
  const { status, winner } = game.state;
  if (status !== 'won' || winner === null) return null;
  const colours = moments[0]!.after.setup.colours;
  return (
    <div className={style.follows}>
      <p>
        <b>{capital(sideName(colours, winner))} have won.</b>
      </p>
      <Button loading={logging.busy} onClick={() => logging.log({ type: 'ended', reason: 'points', winner })}>
        Close the game
      </Button>
    </div>
  );
};

/** What follows from the last entry, said at once: offside balls and whose choice, a wrong ball and its remedy, the end. */
export const WhatFollows = ({ game, logging }: { game: Game; logging: Logging }) => (
  <section aria-label="What follows" aria-live="polite">
    {logging.trouble && (
      <p role="alert" className={style.trouble}>
        {logging.trouble}
      </p>
    )}
    <Verdicts game={game} />
    <Directions game={game} logging={logging} />
    <WrongBallNow game={game} logging={logging} />
    <Won game={game} logging={logging} />
    {game.state.status === 'suspended' && (
      <div className={style.follows}>
        <Button loading={logging.busy} onClick={() => logging.log({ type: 'resumed' })}>
          Go on playing
        </Button>
      </div>
    )}
  </section>
);
