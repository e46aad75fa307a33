import { Button } from '@mantine/core';
import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import type { Game } from '../api/games.ts';
import { GameActions } from './game-actions.tsx';
import { GamePlan } from './game-plan.tsx';
import { GameScreen } from './game-screen.tsx';
import style from './games.module.css';
import { HoopClips } from './hoop-clips.tsx';
import { momentsOf } from './moments.ts';
import { ReplayBar } from './replay-bar.tsx';
import { ScoreBoard } from './score-board.tsx';
import { TurnList } from './turn-list.tsx';
import { useLog } from './use-game.ts';
import { WhatFollows } from './what-follows.tsx';

const NextTurn = ({ game }: { game: Game }) => {
  const { status, next, wrongBall } = game.state;
  if (status !== 'playing' || wrongBall) return null;
  return (
    <section className={style.next}>
      <p>{next.words}.</p>
      <Button size="lg" fullWidth component={Link} href={`/games/${game.id}/turn`}>
        Enter this turn
      </Button>
    </section>
  );
};

const Board = ({ game }: { game: Game }) => {
  const logging = useLog(game);
  const moments = useMemo(() => momentsOf(game.events), [game.events]);
  const [at, setAt] = useState<number | null>(null);
  const last = moments.length - 1;
  const shown = at === null ? last : Math.min(at, last);
  const moment = moments[shown];
  return (
    <div className={style.game}>
      <div className={style.gameWords}>
        <h1>{game.title}</h1>
        <ScoreBoard game={game} />
        <HoopClips game={game} />
        <WhatFollows game={game} logging={logging} />
        <NextTurn game={game} />
      </div>
      <div className={style.gamePlan}>
        {moment && <GamePlan moment={moment} />}
        {moment && <ReplayBar moments={moments} at={shown} onAt={(to) => setAt(to === last ? null : to)} />}
      </div>
      <div className={style.gameMore}>
        <TurnList game={game} moments={moments} at={at} onAt={setAt} logging={logging} />
        <GameActions game={game} logging={logging} />
      </div>
    </div>
  );
};

/** A game: score, hoops, what follows now, the plan with its turns, and what else can be done. */
export const GamePage = ({ id }: { id: string }) => (
  <GameScreen id={id}>{(game) => <Board game={game} />}</GameScreen>
);
