import { useCallback, useState } from 'react';
import type { TurnDraft } from './turn-draft.ts';

const read = (name: string): TurnDraft | null => {
  try {
    return JSON.parse(sessionStorage.getItem(name) ?? 'null') as TurnDraft | null;
  } catch {
    return null;
  }
};

const write = (name: string, draft: TurnDraft | null): void => {
  try {
    if (draft) sessionStorage.setItem(name, JSON.stringify(draft));
    else sessionStorage.removeItem(name);
  } catch {
    // Without storage, what was said lasts as long as the page.
  }
};

/**
 * What was said of a turn so far, kept with the tab: a phone may put the page away while its camera is open, and bring it back anew. `name`
 * says which turn of which state of the log it is about.
 */
export const useKeptTurn = (name: string, start: TurnDraft) => {
  const [draft, setDraft] = useState(() => read(name) ?? start);
  const edit = useCallback(
    (change: (now: TurnDraft) => TurnDraft) =>
      setDraft((now) => {
        const next = change(now);
        write(name, next);
        return next;
      }),
    [name],
  );
  /** Forgets what was said once it is in the log. */
  const forget = useCallback(() => write(name, null), [name]);
  return { draft, edit, forget };
};
