import { useQuery } from '@tanstack/react-query';
import { useDrafts } from '../draft/use-draft.ts';
import { listReadings } from '../service/readings.ts';
import { GoOn } from './go-on.tsx';
import { GoodPicture } from './good-picture.tsx';
import { Greeting } from './greeting.tsx';
import style from './home.module.css';
import { LatestReadings } from './latest-readings.tsx';
import { SampleLawns } from './sample-lawns.tsx';
import { TakePhoto } from './take-photo.tsx';

/** The start: a photo one tap away; on an empty installation a sample and how to take a picture that can be judged. */
export const HomePage = () => {
  const latest = useQuery({ queryKey: ['readings', 'latest'], queryFn: () => listReadings({}) });
  const drafts = useDrafts().filter(({ state }) => state !== 'read');
  const readings = latest.data?.readings ?? [];
  const empty = readings.length === 0 && drafts.length === 0;
  return (
    <div className={style.home}>
      <Greeting>
        <TakePhoto />
      </Greeting>
      {drafts.length > 0 && <GoOn drafts={drafts} />}
      {empty && <SampleLawns />}
      {readings.length > 0 && <LatestReadings readings={readings.slice(0, 4)} />}
      <GoodPicture open={empty} />
      {!empty && <SampleLawns />}
    </div>
  );
};
