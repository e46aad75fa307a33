import type { Begun } from '../../server/games/events.ts';
import { hoopsOf } from '../../server/games/state.ts';
import { legOf } from '../../server/rules/hoop-order.ts';
import { BALL_PAINT } from '../plan/ball-paint.ts';
import type { Game } from '../service/games.ts';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';
import style from './score.module.css';

const Clip = ({ game, point }: { game: Game; point: number }) => {
  const { letters } = useSettings();
  const clip = game.state.clips[point - 1];
  const due = game.state.hoop?.point === point;
  const ball = clip && game.state.sides[clip.side]!.balls[0]!;
  const words = clip ? `scored by the side of ${ballName(ball!)}` : due ? 'contested now' : 'to come';
  const hoop = legOf(hoopsOf(game.events[0]!.event as Begun), point)?.hoop;
  return (
    <li aria-label={`Hoop ${point}, ${words}`}>
      <svg viewBox="0 0 30 44" aria-hidden="true" className={style.clip} data-due={due || undefined}>
        <path d="M6 34V8h18v26" />
        {ball && (
          <>
            <rect
              x="8.5"
              y="3.5"
              width="13"
              height="15"
              rx="2.5"
              fill={BALL_PAINT[ball].fill}
              stroke="#101914"
              strokeWidth="1"
            />
            <text
              x="15"
              y="11.5"
              fill={BALL_PAINT[ball].letter}
              fontSize="11"
              fontWeight="700"
              textAnchor="middle"
              dominantBaseline="central"
            >
              {letters[ball]}
            </text>
          </>
        )}
        <text x="15" y="42" className={style.clipNumber}>
          {point}
        </text>
      </svg>
      {hoop !== point && <small>at {hoop}</small>}
    </li>
  );
};

/** The hoops in order, each scored one with the clip of the side that has it. */
export const HoopClips = ({ game }: { game: Game }) => {
  const count = (game.events[0]!.event as Begun).points;
  return (
    <ol
      className={style.clips}
      aria-label="Hoops"
      style={{ gridTemplateColumns: `repeat(${count > 13 ? Math.ceil(count / 2) : count}, minmax(0, 1fr))` }}
    >
      {Array.from({ length: count }, (_, i) => i + 1).map((point) => (
        <Clip key={point} game={game} point={point} />
      ))}
    </ol>
  );
};
