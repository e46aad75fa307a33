import type { Draft } from '../draft/draft.ts';
import type { Step } from '../shell/steps.tsx';

/** The steps of a draft: those that can be gone to have an address. */
export const wayOf = (draft: Draft | null): Step[] => {
  const done = draft?.state === 'read' ? draft.readingId : null;
  const marks: Step[] = [
    { label: 'Photo', to: draft && `/photo/${draft.id}` },
    { label: 'Marks', to: draft && `/marks/${draft.id}` },
  ];
  if (draft?.kind === 'sighting') return [...marks, { label: 'Call', to: done && `/court/sighting/${done}` }];
  if (draft?.kind === 'check') return [...marks, { label: 'Court', to: done && `/court/check/${done}` }];
  return [
    ...marks,
    { label: 'Balls', to: done && `/balls/${done}` },
    { label: 'Call', to: done && `/call/${done}` },
  ];
};

/** Where a read draft goes on: a picture taken for a game's turn goes to that turn. */
export const onwardPath = ({ kind, readingId, straightToCall, game }: Draft): string => {
  if (kind === 'lawn' && game) return `/games/${game}/turn?reading=${readingId}`;
  if (kind === 'lawn') return `/${straightToCall ? 'call' : 'balls'}/${readingId}`;
  return `/court/${kind}/${readingId}`;
};
