import { useEffect, useRef } from 'react';
import { useLocation } from 'wouter';
import type { PhotoRecord } from '../../server/contract/record.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import type { Pins } from '../draft/draft.ts';
import { updateDraft } from '../draft/draft-store.ts';
import { draftFromServer } from '../draft/new-draft.ts';
import { photoFacts } from '../service/photos.ts';
import { Message } from '../shell/message.tsx';
import { ReadingScreen } from './reading-screen.tsx';

/** Makes a draft of a stored reading again: same photo, same marks, already read. Resolves with its id. */
const draftAgain = async (record: PhotoRecord): Promise<string> => {
  const { width, height } = await photoFacts(record.photoId);
  const { marks } = record;
  const draft = await draftFromServer(record.photoId, { width, height }, marks.balls, {
    kind: record.kind,
    pins: marks.points as Pins,
    hoopScored: (marks.hoopScored as HoopPoint | undefined) ?? null,
    spot: record.spot,
    game: record.game,
    lawn: marks.lawn.id ?? null,
    ...(marks.useChecked === false && { useChecked: false }),
    ...(record.kind === 'check' && {
      court: { tolerance: marks.tolerance ?? null, size: marks.lawn, taped: marks.taped ?? null },
    }),
  });
  await updateDraft(draft.id, (now) => ({ ...now, state: 'read', readingId: record.id }));
  return draft.id;
};

const Making = ({ record, step }: { record: PhotoRecord; step: string }) => {
  const [, go] = useLocation();
  const begun = useRef(false);
  useEffect(() => {
    if (begun.current) return;
    begun.current = true;
    draftAgain(record).then((id) => go(`/${step === 'photo' ? 'photo' : 'marks'}/${id}`, { replace: true }));
  }, [record, step, go]);
  return <Message title="Opening the photo" />;
};

/** Takes a reading up again on a device that did not make it. */
export const AgainPage = ({ id, step }: { id: string; step: string }) => (
  <ReadingScreen id={id}>{(record) => <Making record={record} step={step} />}</ReadingScreen>
);
