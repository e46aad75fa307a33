import type { BallColour } from '../lawn/colours.ts';
import { BALL_ORDER, type ColourSet } from '../rules/ball-order.ts';
import { EDITIONS, type Edition } from '../rules/editions.ts';
import { judgeWrongBall } from '../rules/wrong-ball.ts';
import { FORMATS, type Format, type Stroke, type WrongBallRuling } from '../rules/wrong-ball-types.ts';
import { remediesOf } from './apply-remedy.ts';
import type { RemedyChoice } from './events.ts';
import { judgeNext } from './order.ts';
import { type PutBackLine, putBackCard } from './put-back.ts';
import { courtOf, type GameState, type Position } from './state.ts';

/** What the log says about a stroke that was played, or is about to be: the ruling, what may be done, and where balls would go back. */
export type WrongBallHelp = {
  readonly ruling: WrongBallRuling;
  readonly remedies: readonly RemedyChoice[];
  /** Where every ball lay before the strokes that putting back undoes. Empty when nothing is put back. */
  readonly putBack: readonly PutBackLine[];
};

const helpWith = (
  state: GameState,
  ruling: WrongBallRuling,
  befores: readonly Position[],
): WrongBallHelp => ({
  ruling,
  remedies: remediesOf(ruling),
  putBack: ruling.putBack
    ? putBackCard(befores[befores.length - ruling.undone]?.balls ?? {}, courtOf(state.setup))
    : [],
});

/** Help for a stroke that is not in the log yet. A right stroke has the outcome `stands`. */
export const wrongBallFromLog = (state: GameState, stroke: Stroke): WrongBallHelp =>
  helpWith(state, judgeNext(state, stroke), [...state.order.strokes.map(({ before }) => before), state]);

/** Help for the wrong ball that the log holds open, or null. */
export const openWrongBall = (state: GameState): WrongBallHelp | null =>
  state.wrongBall &&
  helpWith(
    state,
    state.wrongBall,
    state.order.strokes.map(({ before }) => before),
  );

/** What has been answered so far when there is no log. */
export type WrongBallAnswers = {
  readonly edition?: Edition;
  readonly format?: Format;
  readonly colours?: ColourSet;
  /** The ball last played rightly; null at the start. */
  readonly lastRight?: BallColour | null;
  readonly opening?: boolean;
  readonly strokes?: readonly Stroke[];
  /** Whether all strokes since have been named. */
  readonly noMore?: boolean;
};

/** The questions, in the order in which they are asked. */
export const WRONG_BALL_QUESTIONS = [
  'edition',
  'format',
  'colours',
  'lastRight',
  'opening',
  'strokes',
] as const;
export type WrongBallQuestion = (typeof WRONG_BALL_QUESTIONS)[number];

/** The next question with its possible answers, or the ruling when all is known. */
export type WrongBallStep =
  | {
      readonly ask: WrongBallQuestion;
      readonly words: string;
      readonly answers: readonly (string | null)[];
    }
  | { readonly ask: null; readonly ruling: WrongBallRuling };

const ballsIn = (colours: ColourSet | undefined): readonly BallColour[] => BALL_ORDER[colours ?? 'first'];

const FIRST_STEPS: readonly {
  readonly ask: Exclude<WrongBallQuestion, 'strokes'>;
  readonly words: string;
  readonly answers: (given: WrongBallAnswers) => readonly (string | null)[];
}[] = [
  { ask: 'edition', words: 'Which edition of the rules is in force?', answers: () => EDITIONS },
  { ask: 'format', words: 'Is it singles or doubles?', answers: () => FORMATS },
  { ask: 'colours', words: 'Which balls are played with?', answers: () => ['first', 'second'] },
  {
    ask: 'lastRight',
    words: 'Which ball was last played rightly?',
    answers: ({ colours }) => [...ballsIn(colours), null],
  },
  {
    ask: 'opening',
    words: 'Was that within the first four turns of the game?',
    answers: () => ['yes', 'no'],
  },
];

/** Asks one thing at a time for a wrong ball when there is no log; with all answers the ruling. */
export const wrongBallStep = (given: WrongBallAnswers): WrongBallStep => {
  const open = FIRST_STEPS.find(({ ask }) => given[ask] === undefined);
  if (open) return { ask: open.ask, words: open.words, answers: open.answers(given) };
  const { edition, format, colours, lastRight, opening, strokes = [] } = given as Required<WrongBallAnswers>;
  if (!given.noMore)
    return {
      ask: 'strokes',
      words:
        strokes.length === 0
          ? 'Who played first after it, and which ball?'
          : 'Was there a further stroke before it was noticed? Who played, and which ball?',
      answers: ballsIn(colours),
    };
  return {
    ask: null,
    ruling: judgeWrongBall({ edition, format, set: colours, lastRight, opening, strokes }),
  };
};
