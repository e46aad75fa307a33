import { Button, Modal, TextInput } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { PhotoRecord } from '../../server/contract/record.ts';
import { listDrafts, removeDraft } from '../draft/draft-store.ts';
import { deleteReading } from '../service/readings.ts';
import { sentenceOf } from '../service/request.ts';
import style from './call.module.css';

/** Removes a reading and its photo from the club's machine and from this browser. */
const forget = async (id: string): Promise<void> => {
  await deleteReading(id);
  const drafts = await listDrafts();
  await Promise.all(drafts.filter(({ readingId }) => readingId === id).map((draft) => removeDraft(draft.id)));
};

/** A note to find the reading by. */
export const Note = ({ record, onKeep }: { record: PhotoRecord; onKeep: (note: string | null) => void }) => {
  const [note, setNote] = useState(record.note ?? '');
  return (
    <TextInput
      label="Note"
      description="To find it by: the match, the players, what it was about."
      value={note}
      maxLength={500}
      onChange={(event) => setNote(event.currentTarget.value)}
      onBlur={() => note.trim() !== (record.note ?? '') && onKeep(note.trim() || null)}
    />
  );
};

/** Deleting a reading with its photo, asked once. */
export const DeleteReading = ({ id }: { id: string }) => {
  const [asked, setAsked] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [, go] = useLocation();
  const client = useQueryClient();
  const remove = async () => {
    try {
      await forget(id);
      client.removeQueries({ queryKey: ['reading', id] });
      client.invalidateQueries({ queryKey: ['readings'] });
      go('/readings');
    } catch (error) {
      setTrouble(sentenceOf(error));
    }
  };
  return (
    <>
      <Button variant="subtle" onClick={() => setAsked(true)}>
        Delete this reading
      </Button>
      <Modal opened={asked} onClose={() => setAsked(false)} title="Delete this reading?">
        <div className={style.modal}>
          <p>The reading and its photo are deleted here and on the club's machine. This cannot be undone.</p>
          {trouble && <p role="alert">{trouble}</p>}
          <Button onClick={remove}>Delete reading and photo</Button>
          <Button variant="default" onClick={() => setAsked(false)}>
            Keep it
          </Button>
        </div>
      </Modal>
    </>
  );
};
