import { Button } from '@mantine/core';
import type { Game } from '../service/games.ts';
import { ballName, listed } from '../words/balls.ts';
import { AreaAdvice } from './area-advice.tsx';
import formsStyle from './forms.module.css';
import rulingsStyle from './rulings.module.css';
import type { Logging } from './use-game.ts';

const STATES = {
  west: 'goes to the west penalty area',
  east: 'goes to the east penalty area',
  left: 'stays where it lies',
  lapsed: 'can no longer be directed: the next stroke was played',
  referee: 'is a matter for the referee',
} as const;

type Props = {
  readonly game: Game;
  readonly logging: Logging;
  /** Whether the turn that made them offside is the last one. */
  readonly current: boolean;
};

/** Each offside ball's direction: the opponents' three choices, and which area leaves it worse. */
export const Directions = ({ game, logging, current }: Props) => {
  const { directions, advice, sides } = game.state;
  const shown = directions.filter(({ state }) => state === 'pending' || current);
  return (
    <>
      {shown.map(({ ball, chooser, state }) =>
        state === 'pending' ? (
          <div key={ball} className={rulingsStyle.follows}>
            <p>
              <b>{ballName(ball)} is offside.</b> The side of {listed(sides[chooser]!.balls.map(ballName))}{' '}
              chooses, before the next stroke.
            </p>
            {advice && <AreaAdvice advice={advice} ball={ball} />}
            <div className={formsStyle.choices}>
              {(['leave', 'west', 'east'] as const).map((choice) => (
                <Button
                  key={choice}
                  variant={choice !== 'leave' && choice === advice?.worse ? 'filled' : 'default'}
                  loading={logging.busy}
                  onClick={() => logging.log({ type: 'direction', ball, choice })}
                >
                  {choice === 'leave' ? 'Leave it there' : choice === 'west' ? 'To the west' : 'To the east'}
                </Button>
              ))}
            </div>
          </div>
        ) : (
          <p key={ball} className={rulingsStyle.settled}>
            {ballName(ball)} {STATES[state]}.
          </p>
        ),
      )}
    </>
  );
};
