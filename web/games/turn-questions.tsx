import { Link } from 'wouter';
import type { Contact } from '../../server/games/events.ts';
import { nextBalls } from '../../server/games/order.ts';
import type { TurnProposal } from '../../server/games/propose-turn.ts';
import { type GameState, standingsOf } from '../../server/games/state.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName, listed } from '../words/balls.ts';
import style from './games.module.css';
import type { TurnDraft } from './turn-draft.ts';

type Props = {
  readonly state: GameState;
  readonly draft: TurnDraft;
  readonly proposal: TurnProposal | null;
  readonly onDraft: (draft: TurnDraft) => void;
};

const faces = (balls: readonly BallColour[]) =>
  balls.map((ball) => ({ value: ball, name: ballName(ball), face: <BallDisc colour={ball} size={32} /> }));

const same = ([a, b]: Contact, [c, d]: Contact): boolean => (a === c && b === d) || (a === d && b === c);

/** Pairs of balls that may have touched, those with the ball played first. */
const pairsOf = (balls: readonly BallColour[], played: BallColour | null): Contact[] => {
  const pairs = balls.flatMap((one, i) => balls.slice(i + 1).map((other): Contact => [one, other]));
  return pairs.toSorted((a, b) => Number(b.includes(played!)) - Number(a.includes(played!)));
};

/** What the pictures suggest, in a sentence. */
const Proposed = ({ proposal, reading }: { proposal: TurnProposal; reading: string | null }) => {
  const moved = proposal.moved.map(ballName);
  const unseen = proposal.changes
    .filter(({ change }) => change === 'notSeen')
    .map(({ ball }) => ballName(ball));
  return (
    <p>
      {moved.length === 0
        ? 'No ball has moved by more than the pictures can tell.'
        : `By the pictures, ${listed(moved)} moved.`}
      {unseen.length > 0 && ` ${listed(unseen)} was not seen: drag it to its place, or leave it.`}{' '}
      {reading && <Link href={`/balls/${reading}`}>Look at the balls on the photo</Link>}
    </p>
  );
};

const Touches = ({ state, draft, onDraft }: Omit<Props, 'proposal'>) => {
  const pairs = pairsOf(BALL_ORDER[state.setup.colours], draft.ball);
  const touched = draft.touched ?? [];
  const set = (pair: Contact, on: boolean) =>
    onDraft({ ...draft, touched: on ? [...touched, pair] : touched.filter((one) => !same(one, pair)) });
  return (
    <fieldset className={style.touches}>
      <legend>Which balls touched?</legend>
      <div>
        {pairs.map((pair) => (
          <label key={pair.join()}>
            <input
              type="checkbox"
              checked={touched.some((one) => same(one, pair))}
              aria-label={`${ballName(pair[0])} and ${ballName(pair[1])}`}
              onChange={(event) => set(pair, event.currentTarget.checked)}
            />
            <span>
              <BallDisc colour={pair[0]} size={26} />
              <BallDisc colour={pair[1]} size={26} />
            </span>
          </label>
        ))}
        <label>
          <input
            type="checkbox"
            checked={draft.touched === null}
            onChange={(event) => onDraft({ ...draft, touched: event.currentTarget.checked ? null : [] })}
          />
          <span>Nobody saw</span>
        </label>
      </div>
    </fieldset>
  );
};

/** What a picture cannot show: which ball was played, which touched, which scored. What is likely is chosen already. */
export const TurnQuestions = ({ state, draft, proposal, onDraft }: Props) => {
  const balls = BALL_ORDER[state.setup.colours];
  const due = nextBalls(state);
  const point = standingsOf(state).pointDue;
  const wrong = draft.ball !== null && !due.includes(draft.ball);
  return (
    <>
      {proposal && <Proposed proposal={proposal} reading={draft.reading} />}
      <ChoiceTiles
        label={`Ball played (${due.map(ballName).join(' or ') || 'a referee says'} is due)`}
        across={4}
        value={draft.ball}
        onChoose={(ball) => onDraft({ ...draft, ball, player: ball })}
        options={faces(balls)}
      />
      {wrong && (
        <ChoiceTiles
          label={
            state.setup.format === 'doubles'
              ? 'Whose ball is the player who played it?'
              : 'Played by the side of'
          }
          across={4}
          value={draft.player}
          onChoose={(player) => onDraft({ ...draft, player })}
          options={faces(balls)}
        />
      )}
      <Touches state={state} draft={draft} onDraft={onDraft} />
      {point !== null && (
        <ChoiceTiles
          label={`Did a ball score hoop ${point}?`}
          across={5}
          value={draft.scored[0] ?? 'none'}
          onChoose={(ball) => onDraft({ ...draft, scored: ball === 'none' ? [] : [ball] })}
          options={[{ value: 'none' as const, face: 'No' }, ...faces(balls)]}
        />
      )}
    </>
  );
};
