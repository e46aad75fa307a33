import type { LawnRecord } from '../../server/contract/record.ts';
import { lineName, scoredName, towards } from '../../server/contract/words/places.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { metres } from '../../server/units/numbers.ts';
import { courtOfMarks } from '../perspective/reading-camera.ts';
import style from './call.module.css';

const EDITIONS = { '2022': '6th edition, 2022', '2013': '4th edition, 2013' } as const;

const capital = (text: string): string => text[0]!.toUpperCase() + text.slice(1);

/** What was scored, which line, which side counts, under which rules. */
export const CallHead = ({ record }: { record: LawnRecord }) => {
  const { call } = record;
  if (!call)
    return (
      <header className={style.head}>
        <h1>Where the balls lie</h1>
        <p className="soft">No hoop was given, so there is no halfway line to judge.</p>
      </header>
    );
  const court = courtOfMarks(record.marks.lawn);
  const line = { ...call.line, at: metres(call.line.at) };
  return (
    <header className={style.head}>
      <h1>{record.sentence}</h1>
      <p className="soft">
        {capital(scoredName(call.hoopScored as HoopPoint))} was scored. The line runs {lineName(line, court)},
        and past it is to the {towards(call.line)}.
        {record.verdict && ` Rules: ${EDITIONS[record.verdict.edition]}.`}
      </p>
    </header>
  );
};
