import { Button } from '@mantine/core';
import { useState } from 'react';
import {
  type WrongBallAnswers,
  type WrongBallQuestion,
  wrongBallStep,
} from '../../server/games/wrong-ball-help.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { isBallColour } from '../../server/lawn/colours.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';
import type { Stroke, WrongBallRuling } from '../../server/rules/wrong-ball-types.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName, listed } from '../words/balls.ts';
import style from './games.module.css';
import { REMEDY_WORDS } from './wrong-ball-now.tsx';

const WORDS: Readonly<Record<string, string>> = {
  '2013': '4th edition, 2013',
  '2022': '6th edition, 2022',
  singles: 'Singles',
  doubles: 'Doubles',
  first: 'First colours',
  second: 'Second colours',
  yes: 'Yes',
  no: 'No',
};

const faceOf = (answer: string | null) => {
  if (answer === null) return 'None yet';
  return isBallColour(answer) ? <BallDisc colour={answer} size={34} /> : (WORDS[answer] ?? answer);
};

const OUTCOMES = {
  replaceAndReplay: REMEDY_WORDS.replaceAndReplay,
  annulled: REMEDY_WORDS.annul,
  opponentsChoose: 'The opponents choose',
  stands: 'Nothing is put back: the game goes on',
  referee: 'Ask a referee',
} as const;

const Ruling = ({ ruling }: { ruling: WrongBallRuling }) => (
  <div className={style.follows}>
    <h2>{OUTCOMES[ruling.outcome]}</h2>
    <p>
      {ruling.reason} <span className="soft">{ruling.rule}</span>
    </p>
    {ruling.choices.length > 0 && (
      <ul>
        {ruling.choices.map(({ option, next }) => (
          <li key={option}>
            {REMEDY_WORDS[option]}; then {next.map(ballName).join(' or ')} plays.
          </li>
        ))}
      </ul>
    )}
    {ruling.choices.length === 0 && ruling.next.length > 0 && (
      <p>Next plays {ruling.next.map(ballName).join(' or ')}.</p>
    )}
    <p>{ruling.pointsCount ? 'Points of the strokes count.' : 'No point of the wrong play counts.'}</p>
  </div>
);

type StrokesProps = {
  readonly answers: WrongBallAnswers;
  readonly onAnswers: (answers: WrongBallAnswers) => void;
};

/** Who played after the last right stroke, and which ball, stroke by stroke. */
const Strokes = ({ answers, onAnswers }: StrokesProps) => {
  const [player, setPlayer] = useState<BallColour | null>(null);
  const [ball, setBall] = useState<BallColour | null>(null);
  const strokes = answers.strokes ?? [];
  const options = BALL_ORDER[answers.colours ?? 'first'].map((colour) => ({
    value: colour,
    name: ballName(colour),
    face: faceOf(colour),
  }));
  const add = (stroke: Stroke) => {
    onAnswers({ ...answers, strokes: [...strokes, stroke] });
    setPlayer(null);
    setBall(null);
  };
  return (
    <>
      {strokes.length > 0 && (
        <p>
          So far:{' '}
          {listed(
            strokes.map((stroke) => `the player of ${ballName(stroke.player)} with ${ballName(stroke.ball)}`),
          )}
          .
        </p>
      )}
      <ChoiceTiles
        label="Ball that was played"
        across={4}
        value={ball}
        onChoose={setBall}
        options={options}
      />
      <ChoiceTiles
        label={answers.format === 'doubles' ? 'By the player whose ball is' : 'By the side of'}
        across={4}
        value={player}
        onChoose={setPlayer}
        options={options}
      />
      <Button
        variant="default"
        disabled={!ball || !player}
        onClick={() => ball && player && add({ ball, player })}
      >
        That stroke was played
      </Button>
      <Button disabled={strokes.length === 0} onClick={() => onAnswers({ ...answers, noMore: true })}>
        No more: what now?
      </Button>
    </>
  );
};

const answered = (
  answers: WrongBallAnswers,
  ask: WrongBallQuestion,
  value: string | null,
): WrongBallAnswers => ({
  ...answers,
  [ask]: ask === 'opening' ? value === 'yes' : value,
});

/** Help with a wrong ball when there is no log: one question at a time, then what the edition says. */
export const WrongBallPage = () => {
  const [answers, setAnswers] = useState<WrongBallAnswers>({});
  const step = wrongBallStep(answers);
  return (
    <div className={style.page}>
      <h1>A wrong ball was played</h1>
      <p>Stop play first: once the next stroke is played, the error may stand.</p>
      {step.ask === null ? (
        <Ruling ruling={step.ruling} />
      ) : step.ask === 'strokes' ? (
        <>
          <h2>{step.words}</h2>
          <Strokes answers={answers} onAnswers={setAnswers} />
        </>
      ) : (
        <ChoiceTiles
          key={step.ask}
          label={step.words}
          across={step.answers.length > 3 ? 3 : 2}
          value={null}
          onChoose={(value) => setAnswers(answered(answers, step.ask, value === 'none' ? null : value))}
          options={step.answers.map((answer) => ({
            value: answer ?? 'none',
            name: answer && isBallColour(answer) ? ballName(answer) : (WORDS[answer ?? ''] ?? 'None yet'),
            face: faceOf(answer),
          }))}
        />
      )}
      <Button variant="subtle" disabled={Object.keys(answers).length === 0} onClick={() => setAnswers({})}>
        Start again
      </Button>
    </div>
  );
};
