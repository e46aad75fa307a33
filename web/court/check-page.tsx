import { Button } from '@mantine/core';
import { useMemo, useRef, useState } from 'react';
import type { CheckRecord } from '../../server/contract/record.ts';
import { DeleteReading } from '../call/keep-or-delete.tsx';
import parts from '../parts/parts.module.css';
import { courtOfMarks } from '../perspective/reading-camera.ts';
import { ReadingScreen } from '../reading/reading-screen.tsx';
import { useReadingWay } from '../reading/use-reading-way.ts';
import { cardAddress } from '../service/readings.ts';
import { Message } from '../shell/message.tsx';
import { dayName } from '../words/times.ts';
import checkStyle from './check.module.css';
import { CheckPhoto } from './check-photo.tsx';
import courtStyle from './court.module.css';
import { CourtFacts } from './court-facts.tsx';
import { CourtList } from './court-list.tsx';
import { type CourtPlace, placesOf } from './court-places.ts';
import { CourtPlan } from './court-plan.tsx';
import { KeepCheck } from './keep-check.tsx';

/** Cautions that the list has already said of each thing. */
const IN_THE_LIST = ['out-of-place', 'not-seen', 'marker-missing'];

const Cautions = ({ record }: { record: CheckRecord }) =>
  record.warnings
    .filter(({ code }) => !IN_THE_LIST.includes(code))
    .map(({ code, message }) => (
      <p key={`${code} ${message}`} className={parts.notice}>
        {message}
      </p>
    ));

const Check = ({ record }: { record: CheckRecord }) => {
  const places = useMemo(() => placesOf(record), [record]);
  useReadingWay(record, 2);
  const court = courtOfMarks(record.marks.lawn);
  const [chosen, choose] = useState<CourtPlace | null>(null);
  const photoFrame = useRef<HTMLDivElement>(null);
  const { camera, photo } = record;
  const seen = useMemo(
    () => (camera && photo ? { ...record, camera, photo } : null),
    [record, camera, photo],
  );
  const show = (place: CourtPlace) => {
    // A new object each time: the same thing asked for again is shown again.
    choose({ ...place });
    photoFrame.current?.scrollIntoView({ block: 'nearest' });
  };
  return (
    <div className={`${parts.spread} ${checkStyle.check}`}>
      <header className={checkStyle.checkHead}>
        <h1>{record.sentence}</h1>
        <p className="soft">
          Checked on {dayName(record.createdAt)} against a tolerance of {Math.round(record.tolerance * 1000)}{' '}
          mm.
        </p>
      </header>
      <div className={checkStyle.checkPlan}>
        {seen && (
          <div ref={photoFrame} className={checkStyle.checkPhoto}>
            <CheckPhoto record={seen} places={places} chosen={chosen} />
          </div>
        )}
        <CourtPlan court={court} places={places} />
      </div>
      <div className={checkStyle.checkWords}>
        <CourtList places={places} onShow={seen && show} />
        <CourtFacts record={record} />
        <Cautions record={record} />
        <div className={`${courtStyle.buttons} no-print`}>
          <Button component="a" href={cardAddress(record.id, 'card.pdf', false)} target="_blank">
            List to take out on the lawn
          </Button>
          <Button variant="default" onClick={() => window.print()}>
            Print this page
          </Button>
          <KeepCheck record={record} />
          <DeleteReading id={record.id} />
        </div>
      </div>
    </div>
  );
};

/** The answer of a court check: what stands where it should, what does not, and which way to move it. */
export const CheckPage = ({ id }: { id: string }) => (
  <ReadingScreen id={id}>
    {(record) =>
      record.kind === 'check' ? <Check record={record} /> : <Message title="This is not a court check" />
    }
  </ReadingScreen>
);
