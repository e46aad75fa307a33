import type { View } from '../camera/combine-views.ts';
import { pointDerivatives } from '../camera/locate-ball.ts';
import type { SolvedCamera } from '../camera/types.ts';
import type { FoundBall } from '../contract/reading.ts';
import { InputError } from '../errors.ts';
import { BALL_RADIUS } from '../lawn/ball.ts';
import type { BallColour } from '../lawn/colours.ts';
import { type Covariance2, imagePoint, type LawnPoint } from '../units/points.ts';
import type { PictureAnswer } from './combine-readings.ts';
import { solvedFromReading } from './pose-record.ts';
import { PLACED_SD } from './re-evaluate.ts';

/** A ball as one picture shows it. */
export type ShownBall = {
  readonly colour: BallColour;
  readonly image: [number, number];
  readonly covariance: Covariance2;
  readonly place: LawnPoint;
  readonly confidence: number;
  readonly visible: number;
};

/** One picture ready to be combined. */
export type Shown = { readonly view: View; readonly balls: readonly ShownBall[] };

/** What either kind of answer says of a ball. */
type AnswerBall = Pick<
  FoundBall,
  'colour' | 'image' | 'imageCovariance' | 'budget' | 'origin' | 'visible'
> & {
  readonly confidence?: number | undefined;
};

/**
 * Covariance of a ball's image. An answer that was kept before covariances were holds the fit's share of the budget: the round covariance that
 * gives the same total on the lawn stands for it.
 */
const covarianceOf = (ball: AnswerBall, byImage: readonly [number, number, number, number]): Covariance2 => {
  if (ball.imageCovariance) {
    const [xx, xy, yy] = ball.imageCovariance;
    return { xx, xy, yy };
  }
  const fit = ball.origin === 'placed' ? undefined : ball.budget?.fit;
  const variance = fit
    ? (fit.sdX ** 2 + fit.sdY ** 2) / byImage.reduce((sum, value) => sum + value * value, 0)
    : PLACED_SD ** 2;
  return { xx: variance, xy: 0, yy: variance };
};

const showBall = (solved: SolvedCamera, ball: AnswerBall): ShownBall[] => {
  const at = pointDerivatives(solved.camera, imagePoint(...ball.image), BALL_RADIUS);
  if (!at) return [];
  return [
    {
      colour: ball.colour,
      image: ball.image,
      covariance: covarianceOf(ball, at.byImage),
      place: at.point,
      confidence: ball.confidence ?? 1,
      visible: ball.visible ?? 1,
    },
  ];
};

/** A picture's answer as a view that can be combined with others. Throws `InputError` when it holds no camera. */
export const showView = ({ name, answer }: PictureAnswer): Shown => {
  const solved = solvedFromReading(answer);
  if (solved === null)
    throw new InputError(
      'pose-missing',
      `The reading of ${name} holds no camera to combine it with; read that photo again.`,
    );
  const balls = (answer.balls as readonly AnswerBall[]).flatMap((ball) => showBall(solved, ball));
  const view: View = {
    solved,
    balls: balls.map(({ colour, image, covariance }) => ({
      colour,
      image: imagePoint(...image),
      covariance,
    })),
    places: Object.fromEntries(balls.map(({ colour, place }) => [colour, place])),
  };
  return { view, balls };
};
