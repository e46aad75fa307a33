import { useCallback, useEffect, useState } from 'react';
import { newKey } from '../service/new-key.ts';
import { changeMarks, type Draft, type MarksChange, undoMarks } from './draft.ts';
import { getDraft, listDrafts, onDraftChange, updateDraft } from './draft-store.ts';

/** A draft as kept in this browser: undefined while it is fetched, null when there is none of this id. */
export const useDraft = (id: string): Draft | null | undefined => {
  const [draft, setDraft] = useState<Draft | null | undefined>(undefined);
  useEffect(() => {
    let current = true;
    const fetchIt = () => getDraft(id).then((found) => current && setDraft(found));
    fetchIt();
    const forget = onDraftChange((changed, becomes) => {
      if (changed !== id) return;
      if (becomes === undefined) fetchIt();
      else setDraft(becomes);
    });
    return () => {
      current = false;
      forget();
    };
  }, [id]);
  return draft;
};

/** All drafts of this browser, the newest first. */
export const useDrafts = (): readonly Draft[] => {
  const [drafts, setDrafts] = useState<readonly Draft[]>([]);
  useEffect(() => {
    let current = true;
    const fetchAll = () => listDrafts().then((found) => current && setDrafts(found));
    fetchAll();
    const forget = onDraftChange(fetchAll);
    return () => {
      current = false;
      forget();
    };
  }, []);
  return drafts;
};

/** Changes of a draft's marks, each kept at once and able to be undone. */
export const useMarksOf = (id: string) => {
  const change = useCallback(
    (marks: MarksChange | ((draft: Draft) => MarksChange)) =>
      updateDraft(id, (draft) =>
        changeMarks(draft, typeof marks === 'function' ? marks(draft) : marks, newKey()),
      ),
    [id],
  );
  const undo = useCallback(() => updateDraft(id, (draft) => undoMarks(draft, newKey())), [id]);
  const read = useCallback(
    () => updateDraft(id, (draft) => ({ ...draft, state: 'waiting', trouble: null })),
    [id],
  );
  return { change, undo, read };
};
