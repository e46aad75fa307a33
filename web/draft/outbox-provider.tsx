import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { sendPhoto } from '../service/photos.ts';
import { cancelJob, followProgress } from '../service/progress.ts';
import { readPhoto } from '../service/readings.ts';
import { currentSettings } from '../settings/use-settings.ts';
import { type Draft, marksOf } from './draft.ts';
import { getDraftPhoto, listDrafts, onDraftChange, updateDraft } from './draft-store.ts';
import { createOutbox, type Doing, type Outbox } from './outbox.ts';

type OutboxValue = {
  readonly doing: ReadonlyMap<string, Doing>;
  /** Sends what waits, now. */
  readonly send: () => void;
  readonly cancel: (draft: Draft) => Promise<void>;
};

const OutboxContext = createContext<OutboxValue>({
  doing: new Map(),
  send: () => undefined,
  cancel: async () => undefined,
});

/** The outbox of this page. */
export const useOutbox = (): OutboxValue => useContext(OutboxContext);

/** While the server is silent it is tried this often, ms. */
const TRY_AGAIN = 4000;

const makeOutbox = (tell: (id: string, doing: Doing | null) => void): Outbox =>
  createOutbox({
    drafts: listDrafts,
    photo: getDraftPhoto,
    update: updateDraft,
    sendPhoto: (draft, photo, signal) => sendPhoto(photo, draft.name, draft.id, signal),
    read: (draft, signal) =>
      readPhoto(
        {
          kind: draft.kind,
          photoId: draft.photoId!,
          marks: marksOf(draft, currentSettings()),
          game: draft.game,
          spot: draft.spot,
        },
        draft.sendKey,
        draft.sendKey,
        signal,
      ),
    cancel: cancelJob,
    follow: followProgress,
    tell,
  });

/** Only one tab sends at a time where the browser can arrange it; elsewhere the keys keep anything from being stored twice. */
const alone = (work: () => Promise<boolean>): Promise<boolean> =>
  navigator.locks ? (navigator.locks.request('sward-outbox', work) as Promise<boolean>) : work();

/** Runs the outbox for the page: when a draft changes, when the network comes back, and again while the server is silent. */
export const OutboxProvider = ({ children }: { children: ReactNode }) => {
  const [doing, setDoing] = useState<ReadonlyMap<string, Doing>>(new Map());
  const outbox = useRef<Outbox | null>(null);
  outbox.current ??= makeOutbox((id, now) =>
    setDoing((before) => {
      const after = new Map(before);
      if (now) after.set(id, now);
      else after.delete(id);
      return after;
    }),
  );
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const send = useCallback(() => {
    clearTimeout(timer.current);
    alone(() => outbox.current!.run())
      .catch(() => true)
      .then((left) => {
        if (left) timer.current = setTimeout(send, TRY_AGAIN);
      });
  }, []);
  useEffect(() => {
    send();
    const forget = onDraftChange(() => send());
    window.addEventListener('online', send);
    return () => {
      forget();
      window.removeEventListener('online', send);
      clearTimeout(timer.current);
    };
  }, [send]);
  const value = useMemo<OutboxValue>(
    () => ({ doing, send, cancel: (draft) => outbox.current!.cancel(draft) }),
    [doing, send],
  );
  return <OutboxContext value={value}>{children}</OutboxContext>;
};
