import { BallDisc } from '../plan/ball-disc.tsx';
import type { Game } from '../service/games.ts';
import { ballName, listed } from '../words/balls.ts';
import style from './score.module.css';

const STATUS = {
  playing: null,
  won: 'The game is won.',
  suspended: 'Play is suspended.',
  ended: 'The game is over.',
} as const;

/** The score, side by side, large. */
export const ScoreBoard = ({ game }: { game: Game }) => {
  const { sides, status } = game.state;
  return (
    <section className={style.score} aria-label="Score">
      {sides.map(({ side, balls, name, points }) => (
        <div key={side} className={style.scoreSide}>
          <span className={style.scoreBalls}>
            {balls.map((ball) => (
              <BallDisc key={ball} colour={ball} size={34} />
            ))}
          </span>
          <span className={style.scoreName}>{name ?? listed(balls.map(ballName))}</span>
          <b className={style.scorePoints}>{points}</b>
        </div>
      ))}
      {STATUS[status] && <p className={style.scoreStatus}>{STATUS[status]}</p>}
    </section>
  );
};
