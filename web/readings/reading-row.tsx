import { Link } from 'wouter';
import type { RecordSummary } from '../../server/contract/record.ts';
import { scoredName } from '../../server/contract/words/places.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { thumbnailAddress } from '../service/readings.ts';
import { timeOfDay } from '../words/times.ts';
import style from './readings.module.css';

const KINDS = { lawn: 'Whole lawn', sighting: 'Along the line', check: 'Court check' } as const;

/** Where a record is looked at. */
export const recordPath = ({ kind, id }: Pick<RecordSummary, 'kind' | 'id'>): string =>
  ({ lawn: `/call/${id}`, sighting: `/court/sighting/${id}`, check: `/court/check/${id}` })[kind];

/** One line of the field book: the picture, when, what was scored, the call. */
export const ReadingRow = ({ reading }: { reading: RecordSummary }) => (
  <li>
    <Link href={recordPath(reading)} className={style.row ?? ''}>
      <img
        className={style.thumbnail}
        src={thumbnailAddress(reading.id)}
        alt=""
        loading="lazy"
        width="96"
        height="72"
      />
      <span className={style.words}>
        <span className={style.when}>
          {timeOfDay(reading.createdAt)} · {KINDS[reading.kind]}
          {reading.kind !== 'check' &&
            reading.hoopScored !== null &&
            `, ${scoredName(reading.hoopScored as HoopPoint)} scored`}
        </span>
        <span className={style.verdict}>{reading.sentence}</span>
        {reading.note && <span className="soft">{reading.note}</span>}
      </span>
    </Link>
  </li>
);
