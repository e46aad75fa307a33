import type { Combined, View } from '../camera/combine-views.ts';
import type { Disagreement, OddBall } from '../camera/explain-misfit.ts';
import type { Warning } from '../contract/reading.ts';
import { shortPointName } from '../contract/words/places.ts';
import type { BallColour } from '../lawn/colours.ts';
import type { PointName } from '../lawn/named-points.ts';
import type { PictureAnswer } from './combine-readings.ts';

type Named = readonly Pick<PictureAnswer, 'name'>[];

/** How far two pictures put a ball apart, metres: the largest distance between their own places. */
const apart = (views: readonly View[], colour: BallColour): number => {
  const places = views.flatMap(({ places: { [colour]: place } }) => place ?? []);
  const distances = places.flatMap((a) => places.map((b) => Math.hypot(a.x - b.x, a.y - b.y)));
  return Math.max(0, ...distances);
};

/** The picture in which the ball's image lies farthest off, in standard deviations. */
const farthest = ({ misfits }: Combined, colour: BallColour): number =>
  misfits.filter((misfit) => misfit.colour === colour).reduce((a, b) => (b.deviations > a.deviations ? b : a))
    .view;

const ballWarning = (
  pictures: Named,
  views: readonly View[],
  combined: Combined,
  { colour, view }: OddBall,
): Warning => {
  const at = view ?? farthest(combined, colour);
  const showing = views.flatMap(({ balls }, v) => (balls.some((ball) => ball.colour === colour) ? [v] : []));
  const others = showing.filter((v) => v !== at).map((v) => pictures[v]!.name);
  const mm = Math.round(apart(views, colour) * 1000);
  return {
    code: 'ball-moved-or-mark-wrong',
    message: `The ${colour} ball was moved between the pictures, or a mark is wrong: ${pictures[at]!.name} shows it ${mm} mm from where ${others.join(' and ')} ${others.length > 1 ? 'do' : 'does'}. It gets no firm call.`,
  };
};

type BadMark = { readonly view: number; readonly name: PointName; readonly residual: number };

/** The mark that fits its own picture worst, in `view` or in any; null when the pictures keep no marks. */
const worstMark = (views: readonly View[], view: number | null): BadMark | null =>
  views
    .flatMap(({ solved }, v) =>
      view === null || view === v
        ? solved.marks.map(({ name, residual }) => ({ view: v, name, residual: Math.hypot(...residual) }))
        : [],
    )
    .reduce<BadMark | null>((a, b) => (a === null || b.residual > a.residual ? b : a), null);

const viewWarning = (pictures: Named, views: readonly View[], view: number | null): Warning => {
  const mark = worstMark(views, view);
  const where = view === null ? 'one of them' : pictures[view]!.name;
  const look = mark
    ? ` Look at the mark of ${shortPointName(mark.name)} in ${pictures[mark.view]!.name} first: it fits worst, by ${mark.residual.toFixed(1)} px.`
    : '';
  return {
    code: 'ball-moved-or-mark-wrong',
    message: `The pictures do not agree about most balls: a mark is wrong in ${where}, or the balls were moved.${look} No ball gets a firm call.`,
  };
};

const nothingShared = (): Warning => ({
  code: 'nothing-in-common',
  message: 'No ball is seen in more than one of the pictures, so they cannot check each other.',
});

/** The cautions that go with a combination. */
export const combineWarnings = (
  pictures: Named,
  views: readonly View[],
  combined: Combined,
  disagreement: Disagreement | null,
): Warning[] => {
  if (combined.degrees <= 0) return [nothingShared()];
  if (disagreement === null) return [];
  return disagreement.kind === 'view'
    ? [viewWarning(pictures, views, disagreement.view)]
    : disagreement.balls.map((ball) => ballWarning(pictures, views, combined, ball));
};
