import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import {
  WRONG_BALL_QUESTIONS,
  type WrongBallAnswers,
  type WrongBallQuestion,
  wrongBallStep,
} from '../../server/games/wrong-ball-help.ts';
import { isBallColour } from '../../server/lawn/colours.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import parts from '../parts/parts.module.css';
import { BallDisc } from '../plan/ball-disc.tsx';
import { listGames } from '../service/games.ts';
import { ballName } from '../words/balls.ts';
import formsStyle from './forms.module.css';
import newGameStyle from './new-game.module.css';
import { RulingCard } from './ruling-card.tsx';
import { WrongBallStrokes } from './wrong-ball-strokes.tsx';

const WORDS: Readonly<Record<string, string>> = {
  '2013': '4th edition, 2013',
  '2022': '6th edition, 2022',
  singles: 'Singles',
  doubles: 'Doubles',
  first: 'First colours',
  second: 'Second colours',
  yes: 'Yes, within the first four',
  no: 'No, later',
};

const answerName = (answer: string | null): string => {
  if (answer === null) return 'None yet';
  return isBallColour(answer) ? ballName(answer) : (WORDS[answer] ?? answer);
};

const faceOf = (answer: string | null) =>
  answer !== null && isBallColour(answer) ? (
    <span className={newGameStyle.ballFace}>
      <BallDisc colour={answer} size={30} />
      {ballName(answer)}
    </span>
  ) : (
    answerName(answer)
  );

const answered = (given: WrongBallAnswers, ask: WrongBallQuestion, value: string): WrongBallAnswers => ({
  ...given,
  [ask]: ask === 'opening' ? value === 'yes' : value === 'none' ? null : value,
});

/** The answers without the last one. */
const stepBack = (given: WrongBallAnswers): WrongBallAnswers => {
  const { noMore, strokes = [], ...rest } = given;
  if (noMore) return { ...rest, strokes };
  if (strokes.length > 0) return { ...rest, strokes: strokes.slice(0, -1) };
  const last = WRONG_BALL_QUESTIONS.findLast((ask) => ask !== 'strokes' && rest[ask] !== undefined);
  return Object.fromEntries(Object.entries(rest).filter(([ask]) => ask !== last));
};

/** What has been said so far, in short. */
const SoFar = ({ answers }: { answers: WrongBallAnswers }) => {
  const { edition, format, colours, lastRight, opening, strokes = [] } = answers;
  const said = [
    edition && WORDS[edition],
    format && WORDS[format],
    colours && WORDS[colours],
    lastRight !== undefined &&
      (lastRight === null ? 'nothing played before' : `${ballName(lastRight)} last played rightly`),
    opening !== undefined && (opening ? 'within the first four turns' : 'after the first four turns'),
    ...strokes.map(({ ball, player }) => `then ${ballName(ball)}, struck by the side of ${ballName(player)}`),
  ].filter(Boolean);
  return said.length > 0 ? <p className="soft">{said.join('; ')}.</p> : null;
};

const Question = ({
  answers,
  onAnswers,
}: {
  answers: WrongBallAnswers;
  onAnswers: (answers: WrongBallAnswers) => void;
}) => {
  const step = wrongBallStep(answers);
  if (step.ask === null)
    return <RulingCard ruling={step.ruling} striker={answers.strokes?.at(-1)?.player ?? null} />;
  if (step.ask === 'strokes')
    return (
      <>
        <h2>{step.words}</h2>
        <WrongBallStrokes answers={answers} onAnswers={onAnswers} />
      </>
    );
  const { ask } = step;
  return (
    <ChoiceTiles
      key={ask}
      label={step.words}
      across={step.answers.length > 3 ? 3 : 2}
      value={null}
      onChoose={(value) => onAnswers(answered(answers, ask, value))}
      options={step.answers.map((answer) => ({
        value: answer ?? 'none',
        name: answerName(answer),
        face: faceOf(answer),
      }))}
    />
  );
};

/** Games whose log already knows what was due. */
const LoggedGames = () => {
  const { data: games = [] } = useQuery({ queryKey: ['games'], queryFn: listGames });
  const open = games.filter(({ summary }) => summary.status === 'playing').slice(0, 3);
  if (open.length === 0) return null;
  return (
    <section className={formsStyle.stack}>
      <p>Is the game logged here? Enter what was played: its log says the rest without questions.</p>
      {open.map(({ id, title }) => (
        <Button key={id} variant="default" component={Link} href={`/games/${id}/turn`}>
          {title}
        </Button>
      ))}
    </section>
  );
};

/** Help with a wrong ball when there is no log: one question at a time, then what the edition says. */
export const WrongBallPage = () => {
  const [answers, setAnswers] = useState<WrongBallAnswers>({});
  const begun = Object.keys(answers).length > 0;
  return (
    <div className={parts.page}>
      <h1>A wrong ball was played</h1>
      {!begun && <p>Stop play first: once the next stroke is played, the error may stand.</p>}
      <SoFar answers={answers} />
      <Question answers={answers} onAnswers={setAnswers} />
      {begun ? (
        <div className={formsStyle.choices}>
          <Button variant="default" onClick={() => setAnswers(stepBack(answers))}>
            One answer back
          </Button>
          <Button variant="subtle" onClick={() => setAnswers({})}>
            Start again
          </Button>
        </div>
      ) : (
        <LoggedGames />
      )}
    </div>
  );
};
