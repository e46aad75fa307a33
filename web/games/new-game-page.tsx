import { Button, TextInput } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { BALL_ORDER, ballsOf, type ColourSet } from '../../server/rules/ball-order.ts';
import type { GameLength } from '../../server/rules/hoop-order.ts';
import type { Format } from '../../server/rules/wrong-ball-types.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import parts from '../parts/parts.module.css';
import { BallDisc } from '../plan/ball-disc.tsx';
import { beginGame, type NewGame } from '../service/games.ts';
import { newKey } from '../service/new-key.ts';
import { sentenceOf } from '../service/request.ts';
import { ballName, listed } from '../words/balls.ts';
import { type ClubChoice, ClubChoices } from './club-choices.tsx';
import newGameStyle from './new-game.module.css';
import turnStyle from './turn.module.css';

type Plan = {
  title: string;
  colours: ColourSet;
  format: Format;
  points: GameLength;
  names: Record<string, string>;
  club: ClubChoice;
};

const START: Plan = {
  title: '',
  colours: 'first',
  format: 'singles',
  points: 13,
  names: {},
  club: { edition: null, lawn: null, spot: null },
};

/** Balls that share a name: both of a side in singles, each its own in doubles. */
const nameGroups = ({ colours, format }: Plan) =>
  format === 'doubles'
    ? BALL_ORDER[colours].map((ball) => [ball])
    : [0, 1].map((side) => [...ballsOf(colours, side as 0 | 1)]);

const gameOf = (plan: Plan): NewGame => {
  const { title, colours, format, points, club } = plan;
  const names = nameGroups(plan).flatMap((balls) => {
    const name = plan.names[balls[0]!]?.trim();
    return name ? balls.map((ball) => [ball, name]) : [];
  });
  return {
    colours,
    format,
    points,
    ...(club.edition && { edition: club.edition }),
    ...(club.lawn && {
      lawn: { width: club.lawn.width, length: club.lawn.length },
      lawnName: club.lawn.name,
    }),
    ...(club.spot && { spot: club.spot }),
    ...(names.length > 0 && { names: Object.fromEntries(names) }),
    ...(title.trim() && { title: title.trim() }),
  };
};

const Names = ({ plan, onName }: { plan: Plan; onName: (ball: string, name: string) => void }) => (
  <fieldset className={newGameStyle.names}>
    <legend>Players, if you like</legend>
    {nameGroups(plan).map((balls) => (
      <div key={balls.join()} className={newGameStyle.nameRow}>
        {balls.map((ball) => (
          <BallDisc key={ball} colour={ball} size={32} />
        ))}
        <TextInput
          aria-label={`Player of ${listed(balls.map(ballName))}`}
          value={plan.names[balls[0]!] ?? ''}
          maxLength={80}
          onChange={(event) => onName(balls[0]!, event.currentTarget.value)}
        />
      </div>
    ))}
  </fieldset>
);

/** A new game: how it is played. What is left out is as the club's settings say. */
export const NewGamePage = () => {
  const [plan, setPlan] = useState(START);
  const [trouble, setTrouble] = useState<string | null>(null);
  const key = useRef(newKey());
  const client = useQueryClient();
  const [, go] = useLocation();
  const begin = async () => {
    setTrouble(null);
    try {
      const game = await beginGame(gameOf(plan), key.current);
      client.setQueryData(['game', game.id], game);
      client.invalidateQueries({ queryKey: ['games'] });
      go(`/games/${game.id}`, { replace: true });
    } catch (error) {
      setTrouble(sentenceOf(error));
      key.current = newKey();
    }
  };
  return (
    <>
      <div className={parts.sheet}>
        <h1>Begin a game</h1>
        <ChoiceTiles
          label="Balls"
          across={2}
          value={plan.colours}
          onChoose={(colours) => setPlan({ ...plan, colours, names: {} })}
          options={(['first', 'second'] as const).map((set) => ({
            value: set,
            name: set === 'first' ? 'First colours' : 'Second colours',
            face: (
              <span className={newGameStyle.setFace}>
                {BALL_ORDER[set].map((ball) => (
                  <BallDisc key={ball} colour={ball} size={28} />
                ))}
              </span>
            ),
          }))}
        />
        <p className="soft">
          Two games on one lawn are simply two games: begin one with each set of balls. A picture of the lawn
          serves both.
        </p>
        <ChoiceTiles
          label="Played as"
          across={2}
          value={plan.format}
          onChoose={(format) => setPlan({ ...plan, format, names: {} })}
          options={[
            { value: 'singles', face: 'Singles' },
            { value: 'doubles', face: 'Doubles' },
          ]}
        />
        <ChoiceTiles
          label="Hoops"
          across={3}
          value={plan.points}
          onChoose={(points) => setPlan({ ...plan, points })}
          options={[
            { value: 7, face: '7, first to 4' },
            { value: 13, face: '13, first to 7' },
            { value: 19, face: '19, first to 10' },
          ]}
        />
        <Names
          plan={plan}
          onName={(ball, name) => setPlan({ ...plan, names: { ...plan.names, [ball]: name } })}
        />
        <TextInput
          label="Called"
          placeholder="Fernbeck summer doubles"
          value={plan.title}
          maxLength={80}
          onChange={(event) => setPlan({ ...plan, title: event.currentTarget.value })}
        />
        <details className={parts.more}>
          <summary>Rules, lawn and camera place</summary>
          <ClubChoices choice={plan.club} onChoice={(club) => setPlan({ ...plan, club })} />
        </details>
        {trouble && <p role="alert">{trouble}</p>}
      </div>
      <div className={`${parts.foot} ${turnStyle.footAboveNav}`}>
        <Button fullWidth size="lg" onClick={begin}>
          Begin the game
        </Button>
      </div>
    </>
  );
};
