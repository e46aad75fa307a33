import { nextBalls } from '../../server/games/order.ts';
import { type GameState, standingsOf } from '../../server/games/state.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { BALL_ORDER, ballsOf, sideOf } from '../../server/rules/ball-order.ts';
import { BallChoice } from '../parts/ball-choice.tsx';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import parts from '../parts/parts.module.css';
import { ballName, listed } from '../words/balls.ts';
import { ballOptions } from './ball-options.tsx';
import { strikersOf, type TurnDraft, type TurnUnderstood } from './turn-draft.ts';
import { TurnTouches } from './turn-touches.tsx';

type Props = {
  readonly state: GameState;
  readonly draft: TurnDraft;
  readonly turn: TurnUnderstood;
  readonly onDraft: (change: Partial<TurnDraft>) => void;
};

const strikerName = ({ names, format, colours }: GameState['setup'], ball: BallColour): string => {
  const name = names?.[ball];
  const balls = format === 'doubles' ? [ball] : ballsOf(colours, sideOf(ball));
  const own = listed(balls.map(ballName));
  return name ? `${name} (${own})` : `Whoever plays ${own}`;
};

/** Asked at once when the ball was not due, otherwise at hand for who wants to say it. */
const Striker = ({ state, draft, turn, onDraft }: Props) => {
  const { ball, player } = turn;
  if (ball === null) return null;
  const due = nextBalls(state).includes(ball);
  const question = (
    <ChoiceTiles
      label={`Who struck ${ballName(ball)}?`}
      across={2}
      value={player}
      onChoose={(chosen) => onDraft({ player: chosen })}
      options={strikersOf(state.setup, ball).map((one) => ({
        value: one,
        face: strikerName(state.setup, one),
      }))}
    />
  );
  if (!due || (draft.player !== null && draft.player !== ball)) return question;
  return (
    <details className={parts.more}>
      <summary>Somebody else struck it</summary>
      {question}
    </details>
  );
};

const Scored = ({ state, turn, onDraft }: Omit<Props, 'draft'>) => {
  const point = standingsOf(state).pointDue;
  const { scored, proposal } = turn;
  if (point === null) return null;
  const [first, second] = scored ?? [];
  const likely = proposal.mayHaveScored.map(ballName);
  const balls = BALL_ORDER[state.setup.colours];
  return (
    <>
      <ChoiceTiles
        label={`Was hoop ${point} scored?`}
        across={5}
        value={scored === null ? null : (first ?? 'none')}
        onChoose={(ball) => onDraft({ scored: ball === 'none' ? [] : [ball] })}
        options={[{ value: 'none' as const, name: 'No', face: 'No' }, ...ballOptions(balls)]}
      />
      {scored === null && likely.length > 0 && (
        <p className="soft">
          {listed(likely)} {likely.length === 1 ? 'lies' : 'lie'} past it now.
        </p>
      )}
      {first && point < state.setup.points && (
        <details className={parts.more} open={second !== undefined}>
          <summary>Another hoop was scored in the same stroke</summary>
          <ChoiceTiles
            label={`Was hoop ${point + 1} scored too?`}
            across={5}
            value={second ?? 'none'}
            onChoose={(ball) => onDraft({ scored: ball === 'none' ? [first] : [first, ball] })}
            options={[{ value: 'none' as const, name: 'No', face: 'No' }, ...ballOptions(balls)]}
          />
        </details>
      )}
    </>
  );
};

/** What picture and plan cannot show; what they suggest is chosen already. */
export const TurnQuestions = ({ state, draft, turn, onDraft }: Props) => {
  const balls = BALL_ORDER[state.setup.colours];
  const due = nextBalls(state);
  return (
    <>
      <ChoiceTiles
        label={`Which ball was played? ${listed(due.map(ballName)).replace(' and ', ' or ')} is due.`}
        across={4}
        value={turn.ball}
        onChoose={(ball) => onDraft({ ball, player: null })}
        options={ballOptions(balls)}
      />
      <Striker state={state} draft={draft} turn={turn} onDraft={onDraft} />
      <BallChoice
        label="Balls that moved"
        among={balls}
        chosen={turn.moved}
        onChange={(moved) => onDraft({ moved })}
      />
      <TurnTouches
        pairs={turn.pairs}
        onAnswer={(pair, answer) => onDraft({ touches: { ...draft.touches, [pair]: answer } })}
      />
      <Scored state={state} turn={turn} onDraft={onDraft} />
    </>
  );
};
