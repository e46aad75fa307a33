import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Stands } from '../../server/contract/stands.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';
import { shortPointName } from '../../server/contract/words/places.ts';
import type { ScoredPoint } from '../../server/lawn/halfway-lines.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { sentenceOf } from '../api/request.ts';
import { findStands } from '../api/stands.ts';
import { HoopScored } from '../marking/hoop-scored.tsx';
import { lineEnds } from '../marking/needed-points.ts';
import { courtOfMarks } from '../perspective/reading-camera.ts';
import { CommitNumber } from '../settings/commit-number.tsx';
import { useSettings } from '../settings/use-settings.ts';
import { listed } from '../words/balls.ts';
import style from './court.module.css';
import { SETTLED, StandPlan } from './stand-plan.tsx';

const Advice = ({ stands, scored }: { stands: Stands; scored: HoopPoint }) => {
  const good = stands.cells.filter(({ sd }) => giveOrTake(sd) <= SETTLED);
  const best = Math.round(giveOrTake(stands.best.sd) * 1000);
  return (
    <>
      <p>
        {good.length > 0
          ? 'From the filled places a ball half its width past the line, or short of it, can be called.'
          : 'From nowhere at this height can every ball on this line be called. Stand higher, or take a picture along the line.'}{' '}
        The best place, marked with the phone, leaves give or take {best} mm.
      </p>
      <p>
        Get all four corners into the picture, and the marks at both ends of the line:{' '}
        {listed(lineEnds(scored).map(shortPointName))}.
      </p>
    </>
  );
};

/** Where to stand for the hoop being played. */
export const StandPage = () => {
  const { lawn } = useSettings();
  const [scored, setScored] = useState<ScoredPoint>(1);
  const [height, setHeight] = useState(5);
  const { data, error, isPending } = useQuery({
    queryKey: ['stands', scored, height, lawn],
    queryFn: () =>
      findStands({
        hoopScored: scored,
        height,
        lawn: { width: lawn.width, length: lawn.length, unevenness: lawn.unevenness },
      }),
    staleTime: Number.POSITIVE_INFINITY,
  });
  return (
    <div className={style.stand}>
      <div className={style.standWords}>
        <h1>Where to stand</h1>
        <HoopScored
          must
          value={scored}
          onChange={(point) => point !== null && point !== 13 && setScored(point as ScoredPoint)}
        />
        <CommitNumber
          label="Height of the phone above the lawn"
          description="A step-free terrace has 2 to 3 m, a first floor 5 m, a second floor 8 m."
          value={height}
          least={1}
          most={40}
          decimals={1}
          step={0.5}
          suffix="m"
          onCommit={setHeight}
        />
        {error && <p role="alert">{sentenceOf(error)}</p>}
        {isPending && <p role="status">Working it out</p>}
        {data && <Advice stands={data} scored={scored} />}
      </div>
      {data && <StandPlan court={courtOfMarks(lawn)} stands={data} />}
    </div>
  );
};
