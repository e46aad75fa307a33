import type { Draft } from '../draft/draft.ts';
import { stepsOf } from '../reading/use-reading-way.ts';
import type { Step } from '../shell/steps.tsx';

/** The steps of a draft: those that can be gone to have an address. */
export const wayOf = (draft: Draft | null): Step[] => {
  const done = draft?.state === 'read' ? draft.readingId : null;
  const kind = draft?.kind ?? 'lawn';
  const places = { photo: draft && `/photo/${draft.id}`, marks: draft && `/marks/${draft.id}` };
  const steps = stepsOf({ id: done ?? '', kind }, places);
  return done ? steps : steps.map(({ label, to }, at) => ({ label, to: at < 2 ? to : null }));
};

/** Where a read draft goes on: a picture taken for a game's turn goes to that turn. */
export const onwardPath = ({ kind, readingId, straightToCall, game }: Draft): string => {
  if (kind === 'lawn' && game) return `/games/${game}/turn?reading=${readingId}`;
  if (kind === 'lawn') return `/${straightToCall ? 'call' : 'balls'}/${readingId}`;
  return `/court/${kind}/${readingId}`;
};
