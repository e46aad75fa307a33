import { useEffect, useRef } from 'react';
import { Link, useLocation } from 'wouter';
import type { Draft } from '../draft/draft.ts';
import { useDraft } from '../draft/use-draft.ts';
import { Message } from '../shell/message.tsx';
import { useWay } from '../shell/steps.tsx';
import { MarksBench } from './marks-bench.tsx';
import { useDraftPicture } from './use-draft-picture.ts';
import { useStartPins } from './use-start-pins.ts';
import { onwardPath, wayOf } from './way-of.ts';

/** Goes on to what the reading found as soon as it is there, if it was waited for on this screen. */
const useOnward = (draft: Draft) => {
  const [, go] = useLocation();
  const waited = useRef(false);
  useEffect(() => {
    if (draft.state === 'waiting') waited.current = true;
    if (draft.state === 'read' && waited.current) {
      waited.current = false;
      go(onwardPath(draft));
    }
  }, [draft, go]);
};

const Bench = ({ draft }: { draft: Draft }) => {
  const picture = useDraftPicture(draft);
  useStartPins(draft);
  useOnward(draft);
  if (picture.state === 'failed')
    return <Message title="The photo could not be shown">{picture.message}</Message>;
  if (picture.state === 'opening')
    return (
      <Message title={draft.shownHere || draft.photoId ? 'Opening the photo' : 'The photo is on its way'}>
        {draft.trouble ? (
          <p role="alert">{draft.trouble}</p>
        ) : (
          !draft.shownHere && (
            <p>
              The club's machine opens this kind of file; this browser cannot. It is kept here until then.
            </p>
          )
        )}
      </Message>
    );
  return <MarksBench draft={draft} picture={picture.picture} />;
};

/** Second step: pins on the photo, until it can be read. */
export const MarksPage = ({ id }: { id: string }) => {
  const draft = useDraft(id);
  useWay(wayOf(draft ?? null), 1);
  if (draft === undefined) return null;
  if (draft === null)
    return (
      <Message title="This photo is no longer in this browser">
        <p>It was deleted here, or begun on another device. Readings are kept on the club's machine.</p>
        <Link href="/readings">To the readings</Link>
      </Message>
    );
  return <Bench draft={draft} />;
};
