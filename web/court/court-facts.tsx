import type { CheckRecord } from '../../server/contract/record.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';

const mm = (metres: number): string => `${Math.round(Math.abs(metres) * 1000)} mm`;

/** Whether the boundary is a true rectangle of the stated size, and how wide the paint is. */
export const CourtFacts = ({ record }: { record: CheckRecord }) => {
  const { squareness, scale, paint = [] } = record;
  return (
    <>
      {squareness && (
        <p>
          The diagonal from corner 1 to 3 is {mm(squareness.diagonals)}{' '}
          {squareness.diagonals >= 0 ? 'longer' : 'shorter'} than that from 2 to 4, give or take{' '}
          {mm(giveOrTake(squareness.diagonalsSd))}; if the length is right, the lawn is {mm(squareness.width)}{' '}
          {squareness.width >= 0 ? 'too wide' : 'too narrow'}, give or take{' '}
          {mm(giveOrTake(squareness.widthSd))}.
        </p>
      )}
      {scale && (
        <p>
          The picture measures {((scale.ratio - 1) * 100).toFixed(2)} % {scale.ratio >= 1 ? 'more' : 'less'}{' '}
          than the tape, give or take {(giveOrTake(scale.sd) * 100).toFixed(2)} %.
        </p>
      )}
      {paint.length > 0 && (
        <p>The paint is {paint.map(({ side, width }) => `${mm(width)} wide on the ${side}`).join(', ')}.</p>
      )}
    </>
  );
};
