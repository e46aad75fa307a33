import { Button } from '@mantine/core';
import { useState } from 'react';
import type { WrongBallAnswers } from '../../server/games/wrong-ball-help.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { BALL_ORDER, ballsOf, PLAYING_SIDES } from '../../server/rules/ball-order.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName, listed } from '../words/balls.ts';
import { ballOptions } from './ball-options.tsx';
import style from './new-game.module.css';

type Props = {
  readonly answers: WrongBallAnswers;
  readonly onAnswers: (answers: WrongBallAnswers) => void;
};

/** Sides as answers, in singles: each by its first ball. */
const sideOptions = (colours: 'first' | 'second') =>
  PLAYING_SIDES.map((side) => {
    const balls = ballsOf(colours, side);
    return {
      value: balls[0],
      name: listed(balls.map(ballName)),
      face: (
        <span className={style.setFace}>
          {balls.map((ball) => (
            <BallDisc key={ball} colour={ball} size={28} />
          ))}
        </span>
      ),
    };
  });

/** Who played after the last right stroke, and which ball, stroke by stroke. */
export const WrongBallStrokes = ({ answers, onAnswers }: Props) => {
  const [player, setPlayer] = useState<BallColour | null>(null);
  const [ball, setBall] = useState<BallColour | null>(null);
  const { strokes = [], colours = 'first', format } = answers;
  const balls = ballOptions(BALL_ORDER[colours]);
  const add = () => {
    if (!ball || !player) return;
    onAnswers({ ...answers, strokes: [...strokes, { ball, player }] });
    setPlayer(null);
    setBall(null);
  };
  return (
    <>
      <ChoiceTiles label="Ball that was struck" across={4} value={ball} onChoose={setBall} options={balls} />
      <ChoiceTiles
        label={format === 'doubles' ? 'Struck by the player whose own ball is' : 'Struck by the side of'}
        across={format === 'doubles' ? 4 : 2}
        value={player}
        onChoose={setPlayer}
        options={format === 'doubles' ? balls : sideOptions(colours)}
      />
      <Button size="lg" disabled={!ball || !player} onClick={add}>
        That stroke was played
      </Button>
      {strokes.length > 0 && (
        <Button size="lg" variant="default" onClick={() => onAnswers({ ...answers, noMore: true })}>
          No further stroke: what now?
        </Button>
      )}
    </>
  );
};
