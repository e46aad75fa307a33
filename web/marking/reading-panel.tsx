import { Button, Progress } from '@mantine/core';
import type { Draft } from '../draft/draft.ts';
import { useOutbox } from '../draft/outbox-provider.tsx';
import style from './marking.module.css';

/** A photo that is being read, or waits for the server: what is being looked for, and how to stop. */
export const ReadingPanel = ({ draft }: { draft: Draft }) => {
  const { doing, cancel } = useOutbox();
  const now = doing.get(draft.id);
  const silent = now?.state === 'unreachable';
  const words = silent
    ? "The club's machine does not answer. The photo and its marks wait here; they are sent as soon as it does."
    : now?.state === 'reading'
      ? now.message
      : draft.photoId
        ? 'Asking for the reading'
        : 'Sending the photo';
  return (
    <section className={style.panel}>
      <p role="status" className={style.progress}>
        {words}
      </p>
      {!silent && <Progress value={100} animated striped aria-hidden="true" />}
      <Button variant="default" onClick={() => cancel(draft)}>
        {silent ? 'Do not send it' : 'Stop'}
      </Button>
    </section>
  );
};
