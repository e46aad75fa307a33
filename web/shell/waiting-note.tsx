import { Link } from 'wouter';
import { useOutbox } from '../draft/outbox-provider.tsx';
import { useDrafts } from '../draft/use-draft.ts';
import style from './shell.module.css';

/** Says that photos wait for the server, on every screen, until they are through. */
export const WaitingNote = () => {
  const { doing } = useOutbox();
  const waiting = useDrafts().filter(
    ({ id, state }) => state === 'waiting' && doing.get(id)?.state === 'unreachable',
  );
  const first = waiting[0];
  if (!first) return null;
  return (
    <div className={style.note} role="status">
      <span>
        The club's machine does not answer.{' '}
        {waiting.length === 1
          ? 'One photo and its marks wait'
          : `${waiting.length} photos and their marks wait`}{' '}
        here and go on by themselves.
      </span>
      <Link href={`/marks/${first.id}`}>See it</Link>
    </div>
  );
};
