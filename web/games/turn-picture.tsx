import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import type { Begun } from '../../server/games/events.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';
import type { Game } from '../api/games.ts';
import { listReadings } from '../api/readings.ts';
import { TakePhoto } from '../home/take-photo.tsx';
import { timeOfDay } from '../words/times.ts';
import style from './games.module.css';

/** A picture for this turn: one to be taken, or the latest readings, of this game or of the other one on the same lawn. */
export const TurnPicture = ({ game }: { game: Game }) => {
  const setup = game.events[0]!.event as Begun;
  const used = new Set(
    game.events.flatMap(({ event }) => ('reading' in event && event.reading ? [event.reading] : [])),
  );
  const { data } = useQuery({
    queryKey: ['readings', 'for turn'],
    queryFn: () => listReadings({ kind: 'lawn' }),
    staleTime: 0,
  });
  const fresh = (data?.readings ?? []).filter(({ id }) => !used.has(id)).slice(0, 3);
  return (
    <details className={style.more} open={fresh.some(({ game: of }) => of === game.id)}>
      <summary>Take the places from a picture</summary>
      <div className={style.turnPictures}>
        {fresh.map(({ id, createdAt, sentence }) => (
          <Link key={id} href={`/games/${game.id}/turn?reading=${id}`}>
            Picture of {timeOfDay(createdAt)}: {sentence}
          </Link>
        ))}
        <TakePhoto
          start={{
            game: game.id,
            balls: BALL_ORDER[setup.colours],
            hoopScored: (game.state.hoop && game.state.hoop.point <= 12
              ? game.state.hoop.point
              : null) as HoopPoint | null,
            ...(setup.spot && { spot: setup.spot }),
          }}
        />
      </div>
    </details>
  );
};
