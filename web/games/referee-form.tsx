import { Button, Switch, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { Overrule } from '../../server/games/events.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { BallChoice } from '../parts/ball-choice.tsx';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import type { Game } from '../service/games.ts';
import { ballName } from '../words/balls.ts';
import style from './forms.module.css';
import type { FormProps } from './game-actions.tsx';

type Choice = {
  ball: BallColour | null;
  verdict: 'offside' | 'onside';
  putBack: boolean;
  count: boolean;
  next: BallColour[];
  decision: string;
};

const START: Choice = { ball: null, verdict: 'onside', putBack: true, count: false, next: [], decision: '' };

const overruleOf = (game: Game, choice: Choice, reason: string): Overrule | null => {
  const base = { type: 'overrule', reason } as const;
  if (game.state.wrongBall)
    return choice.next.length === 0
      ? null
      : {
          ...base,
          subject: 'wrongBall',
          putBack: choice.putBack,
          pointsCount: choice.count,
          next: choice.next,
        };
  if (choice.ball) return { ...base, subject: 'offside', ball: choice.ball, verdict: choice.verdict };
  return choice.decision.trim() ? { ...base, subject: 'other', decision: choice.decision.trim() } : null;
};

const OnWrongBall = ({
  game,
  choice,
  onChoice,
}: {
  game: Game;
  choice: Choice;
  onChoice: (choice: Choice) => void;
}) => (
  <>
    <Switch
      label="The balls go back"
      checked={choice.putBack}
      onChange={(event) => onChoice({ ...choice, putBack: event.currentTarget.checked })}
    />
    <Switch
      label="Points of the wrong play count"
      checked={choice.count}
      onChange={(event) => onChoice({ ...choice, count: event.currentTarget.checked })}
    />
    <BallChoice
      label="May play next"
      among={game.state.sides.flatMap(({ balls }) => balls)}
      chosen={choice.next}
      onChange={(next) => onChoice({ ...choice, next })}
    />
  </>
);

const OnBalls = ({
  game,
  choice,
  onChoice,
}: {
  game: Game;
  choice: Choice;
  onChoice: (choice: Choice) => void;
}) => (
  <>
    {game.state.offside.length > 0 && (
      <ChoiceTiles
        label="About"
        across={3}
        value={choice.ball ?? 'other'}
        onChoose={(ball) => onChoice({ ...choice, ball: ball === 'other' ? null : ball })}
        options={[
          ...game.state.offside.map(({ colour }) => ({ value: colour, face: ballName(colour) })),
          { value: 'other' as const, face: 'Something else' },
        ]}
      />
    )}
    {choice.ball ? (
      <ChoiceTiles
        label={`${ballName(choice.ball)} is`}
        across={2}
        value={choice.verdict}
        onChoose={(verdict) => onChoice({ ...choice, verdict })}
        options={[
          { value: 'onside', face: 'Onside' },
          { value: 'offside', face: 'Offside' },
        ]}
      />
    ) : (
      <TextInput
        label="The decision"
        value={choice.decision}
        maxLength={500}
        onChange={(event) => onChoice({ ...choice, decision: event.currentTarget.value })}
      />
    )}
  </>
);

/** A referee's decision against or beside the rules' word; its reason is kept in the log. */
export const RefereeForm = ({ game, logging, onDone }: FormProps) => {
  const [choice, setChoice] = useState(START);
  const [reason, setReason] = useState('');
  const overrule = reason.trim() ? overruleOf(game, choice, reason.trim()) : null;
  const Subject = game.state.wrongBall ? OnWrongBall : OnBalls;
  return (
    <div className={style.form}>
      <Subject game={game} choice={choice} onChoice={setChoice} />
      <TextInput
        label="The referee's reason"
        value={reason}
        maxLength={500}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <Button
        disabled={!overrule}
        loading={logging.busy}
        onClick={() => overrule && logging.log(overrule).then((done) => done && onDone())}
      >
        Log the decision
      </Button>
    </div>
  );
};
