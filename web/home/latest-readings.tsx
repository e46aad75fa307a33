import { Link } from 'wouter';
import type { RecordSummary } from '../../server/contract/record.ts';
import parts from '../parts/parts.module.css';
import { ReadingRow } from '../readings/reading-row.tsx';
import style from './home.module.css';

/** The last few readings, and the way to all. */
export const LatestReadings = ({ readings }: { readings: readonly RecordSummary[] }) => (
  <section className={style.section}>
    <h2>Latest readings</h2>
    <ul className={parts.rows}>
      {readings.map((reading) => (
        <ReadingRow key={reading.id} reading={reading} />
      ))}
    </ul>
    <Link href="/readings" className={parts.link ?? ''}>
      All readings
    </Link>
  </section>
);
