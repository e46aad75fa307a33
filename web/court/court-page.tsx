import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { TakePhoto } from '../home/take-photo.tsx';
import parts from '../parts/parts.module.css';
import { listLawns } from '../service/club.ts';
import { listSamples } from '../service/photos.ts';
import { dayName } from '../words/times.ts';
import style from './court.module.css';
import { SampleButtons } from './sample-buttons.tsx';
import { CheckSketch, SightingSketch } from './sketches.tsx';

/** When each lawn was last checked, and its list. */
const LastChecks = () => {
  const { data = [] } = useQuery({ queryKey: ['lawns'], queryFn: listLawns });
  const checked = data.filter(({ check }) => check !== null);
  return checked.map(({ id, name, check }) => (
    <Link key={id} href={`/court/check/${check!.id}`} className={parts.link ?? ''}>
      {name} was checked on {dayName(check!.at)}
    </Link>
  ));
};

/** What else a picture can settle: along the line, the court itself, several pictures together, where to stand. */
export const CourtPage = () => {
  const { data: samples = [] } = useQuery({
    queryKey: ['samples'],
    queryFn: listSamples,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const samplesOf = (kind: 'sighting' | 'check') => samples.filter((sample) => sample.kind === kind);
  return (
    <div className={parts.page}>
      <h1>Along the line, and the court itself</h1>
      <section className={style.section}>
        <h2>Along the line</h2>
        <SightingSketch />
        <p>
          The sharpest evidence there is: stand two or three steps behind one mark of the halfway line, phone
          at eye height, and take the picture towards the mark at the other end. Both marks must be in it.
        </p>
        <TakePhoto start={{ kind: 'sighting' }} takeLabel="Take a picture along the line" />
        <SampleButtons samples={samplesOf('sighting')} label="Try it on a sample" />
      </section>
      <section className={style.section}>
        <h2>Where to stand</h2>
        <p>For the hoop being played and the height you have, the places from which a call can be settled.</p>
        <Link href="/court/stand" className={parts.link ?? ''}>
          Show me where to stand
        </Link>
      </section>
      <section className={style.section}>
        <h2>Several pictures of one position</h2>
        <p>
          Two or more readings of balls that have not moved are surer together than the best of them alone.
        </p>
        <Link href="/court/together" className={parts.link ?? ''}>
          Read pictures together
        </Link>
      </section>
      <section className={style.section}>
        <h2>Check the court</h2>
        <CheckSketch />
        <p>
          From one picture of the whole lawn, taken as high as you can: how far each mark, hoop and the peg
          stand from their places, and which way to move them.
        </p>
        <TakePhoto start={{ kind: 'check', hoopScored: null }} takeLabel="Take a picture of the court" />
        <SampleButtons samples={samplesOf('check')} label="Check a sample court" />
        <LastChecks />
      </section>
    </div>
  );
};
