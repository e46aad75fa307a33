import { type BallColour, isBallColour } from '../../server/lawn/colours.ts';
import { otherSide, setOf, sideName, sideOf } from '../../server/rules/ball-order.ts';
import { sentence } from '../../server/rules/ruling.ts';
import type { WrongBallOutcome, WrongBallRuling } from '../../server/rules/wrong-ball-types.ts';
import { ballName, listed } from '../words/balls.ts';
import style from './rulings.module.css';

/** What each remedy's button says. */
export const REMEDY_WORDS = {
  replaceAndReplay: 'Put the balls back and play the turn again',
  annul: 'Annul the stroke and put the balls back',
  ballSwap: 'Change the two balls of the side',
  leave: 'Leave the balls where they are',
  putBack: 'Put the balls back',
} as const;

const OUTCOMES: Readonly<Record<WrongBallOutcome, string>> = {
  replaceAndReplay: 'The balls go back and the turn is played again',
  annulled: 'The stroke is annulled',
  opponentsChoose: 'The opponents choose',
  stands: 'Nothing goes back: the game goes on',
  referee: 'Ask a referee',
};

/** Balls with an "or" between them. */
const either = (balls: readonly BallColour[]): string => listed(balls.map(ballName)).replace(' and ', ' or ');

/** Rulings are written with the colours in small letters; a person reads names. */
const named = (text: string): string =>
  text.replaceAll(/[a-z]+/g, (word) => (isBallColour(word) ? ballName(word) : word));

const backWords = ({ outcome, putBack, choices, undone }: WrongBallRuling): string => {
  if (outcome === 'referee') return 'The referee says.';
  if (!putBack) return 'Nothing.';
  const what = undone > 1 ? `the last ${undone} strokes` : 'the wrong play';
  return choices.length > 0
    ? `All balls that ${what} moved, if the opponents so choose.`
    : `All balls that ${what} moved.`;
};

const pointsWords = ({ outcome, pointsCount, choices }: WrongBallRuling): string => {
  if (outcome === 'referee') return 'The referee says.';
  const [some, all] = [
    choices.some((choice) => choice.pointsCount),
    choices.every((choice) => choice.pointsCount),
  ];
  if (choices.length > 0 && some && !all) return 'That depends on the choice.';
  return pointsCount || (choices.length > 0 && all) ? 'They count.' : 'No point of the wrong play counts.';
};

const choiceWords = ({ outcome }: WrongBallRuling, striker: BallColour | null): string => {
  if (outcome === 'referee') return "The referee's.";
  if (outcome !== 'opponentsChoose') return "Nobody's: the rule says what happens.";
  if (striker === null) return "The opponents'.";
  return `That of ${named(sideName(setOf(striker), otherSide(sideOf(striker))))}.`;
};

type Props = { readonly ruling: WrongBallRuling; readonly striker: BallColour | null };

/** A ruling on a wrong ball as people ask for it: what happens, who may stop play, what goes back, whose choice, who plays, which points count. */
export const RulingCard = ({ ruling, striker }: Props) => (
  <div className={style.ruling}>
    <h2>{OUTCOMES[ruling.outcome]}</h2>
    <p>
      {named(sentence(ruling.reason))} <span className="soft">{sentence(ruling.rule)}.</span>
    </p>
    <dl>
      <dt>Who may stop play</dt>
      <dd>Whoever sees it, at once: after the next stroke the error may stand.</dd>
      <dt>What goes back</dt>
      <dd>{backWords(ruling)}</dd>
      <dt>Whose choice</dt>
      <dd>{choiceWords(ruling, striker)}</dd>
      <dt>Who plays next</dt>
      <dd>
        {ruling.choices.length > 0
          ? ruling.choices.map(({ option, next, pointsCount }) => (
              <span key={option} className={style.rulingChoice}>
                {REMEDY_WORDS[option]}: then {either(next)} plays, and points{' '}
                {pointsCount ? 'count' : 'do not count'}.
              </span>
            ))
          : ruling.next.length > 0
            ? `${either(ruling.next)}.`
            : 'The referee says.'}
      </dd>
      <dt>Points</dt>
      <dd>{pointsWords(ruling)}</dd>
    </dl>
  </div>
);
