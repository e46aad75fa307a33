import { Link } from 'wouter';
import { TakePhoto } from '../home/take-photo.tsx';
import style from './court.module.css';

/** What else a picture can settle: along the line, the court itself, several pictures together, where to stand. */
export const CourtPage = () => (
  <div className={style.page}>
    <h1>Along the line, and the court itself</h1>
    <section className={style.section}>
      <h2>Along the line</h2>
      <p>
        The sharpest evidence there is: stand some steps behind one mark of the halfway line, phone at eye
        height, and take the picture towards the mark at the other end. Both marks must be in it.
      </p>
      <TakePhoto start={{ kind: 'sighting' }} takeLabel="Take a picture along the line" />
    </section>
    <section className={style.section}>
      <h2>Where to stand</h2>
      <p>For the hoop being played and the height you have, the places from which a call can be settled.</p>
      <Link href="/court/stand" className={style.link ?? ''}>
        Show me where to stand
      </Link>
    </section>
    <section className={style.section}>
      <h2>Several pictures of one position</h2>
      <p>Two or more readings of balls that have not moved are surer together than the best of them alone.</p>
      <Link href="/court/together" className={style.link ?? ''}>
        Read pictures together
      </Link>
    </section>
    <section className={style.section}>
      <h2>Check the court</h2>
      <p>
        From one picture of the whole lawn, taken as high as you can: how far each mark, hoop and the peg
        stand from their places, and which way to move them.
      </p>
      <TakePhoto start={{ kind: 'check', hoopScored: null }} takeLabel="Take a picture of the court" />
    </section>
  </div>
);
