import { Button } from '@mantine/core';
import { sideName } from '../../server/rules/ball-order.ts';
import { sentence } from '../../server/rules/ruling.ts';
import parts from '../parts/parts.module.css';
import type { Game } from '../service/games.ts';
import { Directions } from './directions.tsx';
import { justScored, momentsOf } from './moments.ts';
import style from './rulings.module.css';
import type { Logging } from './use-game.ts';
import { Verdicts } from './verdicts.tsx';
import { WrongBallNow } from './wrong-ball-now.tsx';

const Won = ({ game, logging }: { game: Game; logging: Logging }) => {
  const moments = momentsOf(game.events);
  const { status, winner } = game.state;
  if (status !== 'won' || winner === null) return null;
  const colours = moments[0]!.after.setup.colours;
  return (
    <div className={style.follows}>
      <p>
        <b>{sentence(sideName(colours, winner))} have won.</b>
      </p>
      <Button loading={logging.busy} onClick={() => logging.log({ type: 'ended', reason: 'points', winner })}>
        Close the game
      </Button>
    </div>
  );
};

/** What follows from the last entry, said at once: offside balls and whose choice, a wrong ball and its remedy, the end. */
export const WhatFollows = ({ game, logging }: { game: Game; logging: Logging }) => {
  const current = justScored(momentsOf(game.events));
  return (
    <section aria-label="What follows" aria-live="polite">
      {logging.trouble && (
        <p role="alert" className={parts.notice}>
          {logging.trouble}
        </p>
      )}
      {current && <Verdicts offside={game.state.offside} />}
      <Directions game={game} logging={logging} current={current} />
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
};
