import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import type { Draft } from '../draft/draft.ts';
import { removeDraft } from '../draft/draft-store.ts';
import parts from '../parts/parts.module.css';
import { timeOfDay } from '../words/times.ts';
import style from './home.module.css';

const stateOf = ({ state, pins, trouble }: Draft): string => {
  if (trouble) return 'needs a look';
  if (state === 'waiting') return 'waits to be read';
  const count = Object.keys(pins).length;
  return count === 0 ? 'not marked yet' : `${count} ${count === 1 ? 'point' : 'points'} marked`;
};

const Row = ({ draft }: { draft: Draft }) => {
  const [asked, setAsked] = useState(false);
  return (
    <li className={style.row}>
      <Link
        href={`/${Object.keys(draft.pins).length || draft.state === 'waiting' ? 'marks' : 'photo'}/${draft.id}`}
      >
        Photo of {timeOfDay(draft.createdAt)}
        <span className="soft">{stateOf(draft)}</span>
      </Link>
      {asked ? (
        <Button variant="default" onClick={() => removeDraft(draft.id)}>
          Yes, delete it
        </Button>
      ) : (
        <Button variant="subtle" onClick={() => setAsked(true)}>
          Delete
        </Button>
      )}
    </li>
  );
};

/** Photos that were begun and not finished: tap to go on where they were left. */
export const GoOn = ({ drafts }: { drafts: readonly Draft[] }) => (
  <section className={style.section}>
    <h2>Go on with</h2>
    <ul className={parts.rows}>
      {drafts.map((draft) => (
        <Row key={draft.id} draft={draft} />
      ))}
    </ul>
  </section>
);
