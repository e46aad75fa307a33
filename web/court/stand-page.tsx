import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import type { Stands } from '../../server/contract/stands.ts';
import { margin } from '../../server/contract/words/lengths.ts';
import { shortPointName } from '../../server/contract/words/places.ts';
import type { ScoredPoint } from '../../server/lawn/halfway-lines.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { HoopScored } from '../marking/hoop-scored.tsx';
import { lineEnds } from '../marking/needed-points.ts';
import parts from '../parts/parts.module.css';
import { courtOfMarks } from '../perspective/reading-camera.ts';
import { sentenceOf } from '../service/request.ts';
import { findStands } from '../service/stands.ts';
import { useSettings } from '../settings/use-settings.ts';
import { listed } from '../words/balls.ts';
import { HeightRange } from './height-range.tsx';
import { leastCalled, settles } from './settled-places.ts';
import style from './stand.module.css';
import { StandPlan } from './stand-plan.tsx';
import { placeInWords, sidesOf } from './stand-words.ts';

const asPercent = (certainty: number): string => `${Number((certainty * 100).toFixed(1))} in 100`;

const Advice = ({ stands, scored }: { stands: Stands; scored: HoopPoint }) => {
  const { lawn, units, certainty } = useSettings();
  const { best } = stands;
  const good = stands.cells.filter(({ sd }) => settles(sd, certainty) === 'half');
  const sides = sidesOf(good, lawn);
  return (
    <div className={style.advice}>
      <p className={style.lead}>
        {good.length === 0
          ? 'From nowhere at this height is every ball on this line settled.'
          : `Stand on the filled ground${sides.length > 0 ? `, behind the ${listed(sides)} ${sides.length > 1 ? 'boundaries' : 'boundary'}` : ''}.`}
      </p>
      <p>
        {good.length === 0
          ? 'Stand higher, or take a picture along the line: for that the height of your eyes is enough. '
          : `From there a ball half its width past the line or short of it, 46 mm, is called at ${asPercent(certainty)}. `}
        Best of all: {placeInWords(best, stands, lawn, units)}. There{' '}
        {margin(leastCalled(best.sd, certainty), units)} is enough.
      </p>
      <p>
        Get all four corners into the picture, and the marks at both ends of the line:{' '}
        {listed(lineEnds(scored).map(shortPointName))}. Stand only where it is safe.
      </p>
      <p className="soft">
        This is what an exact picture of an even lawn could tell; a picture from there may tell less, never
        more.
      </p>
      <Link href="/court" className={parts.link ?? ''}>
        Take a picture along the line instead
      </Link>
    </div>
  );
};

/** Where to stand for the hoop being played. */
export const StandPage = () => {
  const { lawn, certainty } = useSettings();
  const [scored, setScored] = useState<ScoredPoint>(1);
  const [height, setHeight] = useState(5);
  const { data, error, isPending } = useQuery({
    queryKey: ['stands', scored, height, lawn.width, lawn.length, lawn.unevenness],
    queryFn: () =>
      findStands({
        hoopScored: scored,
        height,
        lawn: { width: lawn.width, length: lawn.length, unevenness: lawn.unevenness },
      }),
    staleTime: Number.POSITIVE_INFINITY,
    placeholderData: (before) => before,
  });
  return (
    <div className={`${parts.spread} ${style.stand}`}>
      <div className={style.standAsk}>
        <h1>Where to stand</h1>
        <HoopScored
          must
          value={scored}
          onChange={(point) => point !== null && point !== 13 && setScored(point as ScoredPoint)}
        />
        <HeightRange height={height} onChange={setHeight} />
        {error && <p role="alert">{sentenceOf(error)}</p>}
        {isPending && !error && <p role="status">Working it out</p>}
      </div>
      {data && <StandPlan court={courtOfMarks(lawn)} stands={data} certainty={certainty} />}
      {data && <Advice stands={data} scored={scored} />}
    </div>
  );
};
