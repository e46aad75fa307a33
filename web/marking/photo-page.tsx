import { Button, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useLocation } from 'wouter';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { type CourtQuestion, type Draft, PLAIN_QUESTION } from '../draft/draft.ts';
import { useDraft, useMarksOf } from '../draft/use-draft.ts';
import { TakePhoto } from '../home/take-photo.tsx';
import { BallChoice } from '../parts/ball-choice.tsx';
import parts from '../parts/parts.module.css';
import { listSpots } from '../service/club.ts';
import { Message } from '../shell/message.tsx';
import { useWay } from '../shell/steps.tsx';
import { CourtAsk } from './court-ask.tsx';
import { HoopScored } from './hoop-scored.tsx';
import { rememberFacts } from './last-facts.ts';
import { LineEnds } from './line-ends.tsx';
import style from './marking.module.css';
import { PhotoPreview } from './photo-preview.tsx';
import { UseCheck } from './use-check.tsx';
import { wayOf } from './way-of.ts';

const SpotChoice = ({ draft, onChoose }: { draft: Draft; onChoose: (spot: string | null) => void }) => {
  const { data: spots = [] } = useQuery({ queryKey: ['spots'], queryFn: listSpots });
  if (spots.length === 0) return null;
  return (
    <NativeSelect
      label="Taken from"
      description="The pins start where the last picture from this spot had them."
      value={draft.spot ?? ''}
      onChange={(event) => onChoose(event.currentTarget.value || null)}
      data={[
        { value: '', label: 'Somewhere else' },
        ...spots.map(({ id, name }) => ({ value: id, label: name })),
      ]}
    />
  );
};

const Facts = ({ draft }: { draft: Draft }) => {
  const { change } = useMarksOf(draft.id);
  const [, go] = useLocation();
  // Along the line there must be a line.
  const needsHoop = draft.kind === 'sighting' && draft.hoopScored === null;
  const goOn = () => {
    rememberFacts({ balls: draft.balls, spot: draft.spot });
    go(`/marks/${draft.id}`);
  };
  return (
    <>
      <div className={parts.sheet}>
        {draft.trouble && (
          <div role="alert" className={parts.notice}>
            <p>{draft.trouble}</p>
            <TakePhoto takeLabel="Take another picture" />
          </div>
        )}
        {draft.kind !== 'check' && (
          <>
            <HoopScored
              must={draft.kind === 'sighting'}
              value={draft.hoopScored}
              onChange={(hoopScored: HoopPoint | null) => change({ hoopScored })}
            />
            <BallChoice
              label="Balls in this game"
              chosen={draft.balls}
              onChange={(balls) => change({ balls })}
            />
          </>
        )}
        {draft.kind === 'check' && (
          <CourtAsk
            question={draft.court ?? PLAIN_QUESTION}
            onChange={(court: CourtQuestion) => change({ court })}
          />
        )}
        {draft.kind === 'sighting' && (
          <>
            <LineEnds scored={draft.hoopScored} />
            <UseCheck draft={draft} onChange={change} />
          </>
        )}
        <SpotChoice draft={draft} onChoose={(spot) => change({ spot })} />
      </div>
      <div className={parts.foot}>
        <Button fullWidth size="lg" disabled={needsHoop || draft.balls.length === 0} onClick={goOn}>
          {needsHoop
            ? 'Say which hoop was scored'
            : draft.kind === 'sighting'
              ? 'Pin the ends of the line'
              : 'Pin the corners'}
        </Button>
      </div>
    </>
  );
};

/** First step: the photo, and what it is asked about. */
export const PhotoPage = ({ id }: { id: string }) => {
  const draft = useDraft(id);
  useWay(wayOf(draft ?? null), 0);
  if (draft === undefined) return null;
  if (draft === null)
    return (
      <Message title="This photo is no longer in this browser">
        <p>It was deleted here, or begun on another device. Readings are kept on the club's machine.</p>
        <Link href="/readings">To the readings</Link>
      </Message>
    );
  return (
    <div className={style.photoStep}>
      <h1 className="visually-hidden">The photo</h1>
      <PhotoPreview draft={draft} />
      <div className={style.facts}>
        <Facts draft={draft} />
      </div>
    </div>
  );
};
