import { Button } from '@mantine/core';
import { useCallback, useState } from 'react';
import { Link } from 'wouter';
import { sentence } from '../../server/rules/ruling.ts';
import parts from '../parts/parts.module.css';
import { BallDisc } from '../plan/ball-disc.tsx';
import type { Game } from '../service/games.ts';
import { DeleteGame } from './delete-game.tsx';
import style from './game.module.css';
import { GameActions } from './game-actions.tsx';
import { GamePlan } from './game-plan.tsx';
import { GameScreen } from './game-screen.tsx';
import { HoopClips } from './hoop-clips.tsx';
import { KeepAndPrint } from './keep-and-print.tsx';
import { MomentPhoto } from './moment-photo.tsx';
import { isPlay, type Moment, momentsOf } from './moments.ts';
import { ReplayBar } from './replay-bar.tsx';
import { ScoreBoard } from './score-board.tsx';
import { TurnList } from './turn-list.tsx';
import { useLog } from './use-game.ts';
import { WhatFollows } from './what-follows.tsx';

const NextTurn = ({ game }: { game: Game }) => {
  const { status, next, wrongBall, directions } = game.state;
  if (status !== 'playing' || wrongBall) return null;
  return (
    <section className={style.next}>
      <p>
        {next.balls.map((ball) => (
          <BallDisc key={ball} colour={ball} size={36} />
        ))}
        <span>{sentence(next.words)}.</span>
      </p>
      <Button
        size="lg"
        fullWidth
        variant={directions.some(({ state }) => state === 'pending') ? 'default' : 'filled'}
        component={Link}
        href={`/games/${game.id}/turn`}
      >
        Enter this turn
      </Button>
    </section>
  );
};

/** The ball that a moment is about: the one played. */
const ballOf = ({ event }: Moment) => (isPlay(event) ? event.ball : null);

const Board = ({ game }: { game: Game }) => {
  const logging = useLog(game);
  const moments = momentsOf(game.events);
  const [at, setAt] = useState<number | null>(null);
  const last = moments.length - 1;
  const shown = at === null ? last : Math.min(at, last);
  const moment = moments[shown];
  const show = useCallback((to: number) => setAt(to), []);
  return (
    <div className={`${parts.spread} ${style.game}`}>
      <div className={style.gameWords}>
        <h1>{game.title}</h1>
        <ScoreBoard game={game} />
        <HoopClips game={game} />
        <WhatFollows game={game} logging={logging} />
        <NextTurn game={game} />
      </div>
      <div className={style.gamePlan}>
        {moment && <GamePlan moment={moment} moving={at !== null} />}
        {moment && <ReplayBar moments={moments} at={shown} onAt={show} />}
        {moment && 'reading' in moment.event && moment.event.reading && (
          <MomentPhoto reading={moment.event.reading} chosen={ballOf(moment)} />
        )}
      </div>
      <div className={style.gameMore}>
        <TurnList game={game} moments={moments} at={at} onAt={show} logging={logging} />
        <GameActions game={game} logging={logging} />
        {moment && <KeepAndPrint game={game} number={moment.number} />}
        <DeleteGame id={game.id} />
      </div>
    </div>
  );
};

/** A game: score, hoops, what follows now, the plan with its turns, and what else can be done. */
export const GamePage = ({ id }: { id: string }) => (
  <GameScreen id={id}>{(game) => <Board game={game} />}</GameScreen>
);
