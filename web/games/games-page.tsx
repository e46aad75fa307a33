import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import parts from '../parts/parts.module.css';
import { BallDisc } from '../plan/ball-disc.tsx';
import { type GameHead, listGames } from '../service/games.ts';
import { sentenceOf } from '../service/request.ts';
import { Message } from '../shell/message.tsx';
import { timeOfDay } from '../words/times.ts';
import style from './games-list.module.css';
import { ImportGame } from './import-game.tsx';

const STATUS = {
  playing: 'being played',
  won: 'won, not closed yet',
  suspended: 'to be finished another day',
  ended: 'ended',
} as const;

/** Games that still go on first, each group the latest first. */
const inOrder = (games: readonly GameHead[]): readonly GameHead[] =>
  games.toSorted((a, b) => Number(a.summary.status === 'ended') - Number(b.summary.status === 'ended'));

const Row = ({ game }: { game: GameHead }) => {
  const { score, sides, status, turns } = game.summary;
  return (
    <li>
      <Link href={`/games/${game.id}`} className={style.row ?? ''}>
        <span className={style.rowTitle}>{game.title}</span>
        <span className={style.rowScore}>
          {sides.map((balls, side) => (
            <span key={balls.join()} className={style.rowSide}>
              {balls.map((ball) => (
                <BallDisc key={ball} colour={ball} size={24} />
              ))}
              <b>{score[side]}</b>
            </span>
          ))}
        </span>
        <span className="soft">
          {STATUS[status]}, {turns} {turns === 1 ? 'turn' : 'turns'}, {timeOfDay(game.updatedAt)}
        </span>
      </Link>
    </li>
  );
};

/** All games, the latest first, and the ways to a new one. */
export const GamesPage = () => {
  const { data: games, error } = useQuery({ queryKey: ['games'], queryFn: listGames });
  return (
    <div className={parts.page}>
      <h1>Games</h1>
      {error && <p role="alert">{sentenceOf(error)}</p>}
      <Button size="lg" component={Link} href="/games/new">
        Begin a game
      </Button>
      {games?.length === 0 && (
        <Message title="No game yet">
          <p>
            A game's log is one entry a turn. It knows where every ball lay before, so it can say what is
            offside, what follows from a wrong ball, and where balls go back.
          </p>
        </Message>
      )}
      {games && games.length > 0 && (
        <ul className={parts.rows}>
          {inOrder(games).map((game) => (
            <Row key={game.id} game={game} />
          ))}
        </ul>
      )}
      <ImportGame />
      <Link href="/games/wrong-ball" className={parts.link ?? ''}>
        A wrong ball was played, and there is no log
      </Link>
    </div>
  );
};
