import { Button } from '@mantine/core';
import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import type { LawnRecord } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { HoopScored } from '../marking/hoop-scored.tsx';
import parts from '../parts/parts.module.css';
import { courtOfMarks } from '../perspective/reading-camera.ts';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import { useCorrections } from '../reading/use-reading.ts';
import { ballName, listed } from '../words/balls.ts';
import { dayName, timeOfDay } from '../words/times.ts';
import { BallCallCard } from './ball-call-card.tsx';
import style from './call.module.css';
import { CallHead } from './call-head.tsx';
import { CallPhoto } from './call-photo.tsx';
import { DeleteReading, Note } from './keep-or-delete.tsx';
import { nextHoopWords } from './next-hoop-words.ts';
import { Places } from './places.tsx';
import { SaveSpot } from './save-spot.tsx';
import { byCloseness } from './say-call.ts';
import { seenLawnOf } from './seen-lawn.ts';
import { Share } from './share.tsx';

const Missing = ({ record }: { record: LawnRecord }) => {
  if (record.missing.length === 0) return null;
  return (
    <p className={style.missing}>
      Not found: {listed(record.missing.map(ballName))}. A ball that was not found is not called; add it on
      the balls step if you can see it.
    </p>
  );
};

const Warnings = ({ record }: { record: LawnRecord }) => (
  <>
    {record.warnings.map(({ code, message }) => (
      <p key={`${code} ${message}`} className={parts.notice}>
        {message}
      </p>
    ))}
  </>
);

/** The call as people read it together: sentences and close-ups, the photo, the plan. */
export const CallScreen = ({ record }: { record: LawnRecord }) => {
  const corrections = useCorrections(record);
  const calls = byCloseness(record.call?.balls ?? []);
  const [open, setOpen] = useState<BallColour | null>(calls[0]?.colour ?? null);
  const next = record.call ? nextHoopWords(record.call) : '';
  const court = courtOfMarks(record.marks.lawn);
  const lawn = useMemo(() => seenLawnOf(record), [record]);
  return (
    <div className={style.screen}>
      <div className={style.words}>
        <CallHead record={record} />
        {corrections.trouble && (
          <p role="alert" className={parts.notice}>
            {corrections.trouble}
          </p>
        )}
        <ul className={style.cards}>
          {calls.map((call) => (
            <BallCallCard
              key={call.colour}
              record={record}
              call={call}
              next={next}
              open={open === call.colour}
              onOpen={() => setOpen(open === call.colour ? null : call.colour)}
              corrections={corrections}
            />
          ))}
        </ul>
        {record.game && (
          <Button
            className="no-print"
            component={Link}
            href={`/games/${record.game}/turn?reading=${record.id}`}
          >
            Enter the turn with these places
          </Button>
        )}
        {!record.call && <Places record={record} />}
        <Missing record={record} />
        <Warnings record={record} />
      </div>
      <div className={style.pictures}>
        {lawn && <CallPhoto lawn={lawn} chosen={open} />}
        <div className={style.plan}>
          <LawnPlan
            court={court}
            label={`Plan of the lawn: ${record.sentence}`}
            line={record.call?.line}
            balls={record.balls}
            chosen={open}
          />
        </div>
      </div>
      <div className={`${style.after} no-print`}>
        <Share id={record.id} />
        <details className={parts.more}>
          <summary>Another hoop was scored</summary>
          <HoopScored
            value={(record.call?.hoopScored as HoopPoint | undefined) ?? null}
            onChange={(hoopScored) => corrections.correct({ hoopScored })}
          />
        </details>
        <SaveSpot record={record} corrections={corrections} />
        <Note record={record} onKeep={(note) => corrections.correct({ note })} />
        <p className="soft">
          Read on {dayName(record.createdAt)} at {timeOfDay(record.createdAt).split(' ').at(-1)}. The reading
          helps whoever decides; the referee and the rules in force decide, and may always test on the lawn.
        </p>
        <DeleteReading id={record.id} />
      </div>
    </div>
  );
};
