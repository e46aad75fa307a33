import { Button } from '@mantine/core';
import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import type { SightingRecord } from '../../server/contract/record.ts';
import { lineName, scoredName, towards } from '../../server/contract/words/places.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { type HoopPoint, hoopOfPoint } from '../../server/lawn/hoops.ts';
import { metres } from '../../server/units/numbers.ts';
import callStyle from '../call/call.module.css';
import { CallPhoto } from '../call/call-photo.tsx';
import { DeleteReading } from '../call/keep-or-delete.tsx';
import { byCloseness } from '../call/say-call.ts';
import { seenLawnOf } from '../call/seen-lawn.ts';
import { Share } from '../call/share.tsx';
import parts from '../parts/parts.module.css';
import { ReadingScreen } from '../reading/reading-screen.tsx';
import { useReadingWay } from '../reading/use-reading-way.ts';
import { Message } from '../shell/message.tsx';
import { ballName, listed } from '../words/balls.ts';
import { SightingCard } from './sighting-card.tsx';
import { SightingScene } from './sighting-scene.tsx';
import { Stood } from './stood.tsx';

/** Where a ball that was not found is tapped in the photo: at once when only one is missing. */
const tapPath = (id: string, missing: readonly BallColour[]): string =>
  `/balls/${id}${missing.length === 1 ? `?add=${missing[0]}` : ''}`;

const Missing = ({ record }: { record: SightingRecord }) => {
  const { id, missing = [], camera } = record;
  if (missing.length === 0) return null;
  return (
    <div className={callStyle.missing}>
      <p>
        Not found: {listed(missing.map(ballName))}. A ball that you can see in the photo can be put there by
        hand; it is called with a hand's doubt. From the other end of the line, or from a little higher, it
        may be found by itself.
      </p>
      {camera && (
        <Button component={Link} href={tapPath(id, missing)} variant="default" className="no-print">
          Tap {missing.length === 1 ? ballName(missing[0]!) : 'a ball'} in the photo
        </Button>
      )}
    </div>
  );
};

const Alone = ({ record }: { record: SightingRecord }) =>
  record.marks.tap ? (
    <p className={callStyle.missing}>
      Only the ball that was tapped is judged. <Link href={`/balls/${record.id}`}>To the balls</Link>
    </p>
  ) : null;

const Warnings = ({ record }: { record: SightingRecord }) =>
  record.warnings.map(({ code, message }) => (
    <p key={`${code} ${message}`} className={parts.notice}>
      {message}
    </p>
  ));

const Sighting = ({ record }: { record: SightingRecord }) => {
  useReadingWay(record, 3);
  const calls = byCloseness(record.balls) as SightingRecord['balls'];
  const [open, setOpen] = useState<BallColour | null>(calls[0]?.colour ?? null);
  const lawn = useMemo(() => seenLawnOf(record), [record]);
  const scored = record.marks.hoopScored as HoopPoint;
  const line = { ...record.line, at: metres(record.line.at) };
  const next = `hoop ${hoopOfPoint((scored + 1) as HoopPoint)}, ${towards(line)}`;
  return (
    <div className={callStyle.screen}>
      <div className={callStyle.words}>
        <header className={callStyle.head}>
          <h1>{record.sentence}</h1>
          <p className="soft">
            Seen along the line: {scoredName(scored)} was scored, the line runs{' '}
            {lineName(line, record.marks.lawn)}, past it is to the {towards(line)}.
          </p>
        </header>
        <ul className={callStyle.cards}>
          {calls.map((call) => (
            <SightingCard
              key={call.colour}
              call={call}
              axis={record.line.axis}
              next={next}
              open={open === call.colour}
              onOpen={() => setOpen(open === call.colour ? null : call.colour)}
            />
          ))}
        </ul>
        <Alone record={record} />
        <Missing record={record} />
        <Warnings record={record} />
      </div>
      <div className={callStyle.pictures}>
        {lawn && <CallPhoto lawn={lawn} chosen={open} />}
        <div className={callStyle.plan}>
          <SightingScene record={record} chosen={open} />
        </div>
      </div>
      <div className={callStyle.after}>
        <Stood record={record} chosen={open} />
      </div>
      <div className={`${callStyle.after} no-print`}>
        <Share id={record.id} />
        <Link href={`/court/together?with=${record.id}`} className={parts.link ?? ''}>
          Read it together with another picture of the same position
        </Link>
        <DeleteReading id={record.id} />
      </div>
    </div>
  );
};

/** The answer of a picture along the line. */
export const SightingPage = ({ id }: { id: string }) => (
  <ReadingScreen id={id}>
    {(record) =>
      record.kind === 'sighting' ? (
        <Sighting record={record} />
      ) : (
        <Message title="This is not a picture along the line" />
      )
    }
  </ReadingScreen>
);
