import { Button } from '@mantine/core';
import { openWrongBall } from '../../server/games/wrong-ball-help.ts';
import parts from '../parts/parts.module.css';
import type { Game } from '../service/games.ts';
import formsStyle from './forms.module.css';
import { momentsOf } from './moments.ts';
import { PutBackLines } from './put-back-lines.tsx';
import { REMEDY_WORDS, RulingCard } from './ruling-card.tsx';
import rulingsStyle from './rulings.module.css';
import type { Logging } from './use-game.ts';

/** A wrong ball that has not been settled: what the edition says, what may be done, and where balls go back. */
export const WrongBallNow = ({ game, logging }: { game: Game; logging: Logging }) => {
  const state = momentsOf(game.events).at(-1)?.after;
  const help = state && openWrongBall(state);
  if (!help) return null;
  const { ruling, remedies, putBack } = help;
  return (
    <div className={rulingsStyle.follows}>
      <p className={rulingsStyle.stop}>A wrong ball was played. Stop play.</p>
      <RulingCard ruling={ruling} striker={state.order.strokes.at(-1)?.player ?? null} />
      <div className={formsStyle.choices}>
        {remedies.map((choice) => (
          <Button
            key={choice}
            variant={remedies.length === 1 ? 'filled' : 'default'}
            loading={logging.busy}
            onClick={() => logging.log({ type: 'remedy', choice })}
          >
            {REMEDY_WORDS[choice]}
          </Button>
        ))}
      </div>
      {remedies.length === 0 && <p>Enter the referee's decision below, under "The referee decides".</p>}
      {putBack.length > 0 && (
        <details className={parts.more}>
          <summary>Where the balls lay before</summary>
          <PutBackLines lines={putBack} />
        </details>
      )}
    </div>
  );
};
