import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { LawnRecord } from '../../server/contract/record.ts';
import type { CorrectionsOf } from '../reading/use-reading.ts';
import { addSpot, listSpots } from '../service/club.ts';
import { sentenceOf } from '../service/request.ts';
import style from './call.module.css';

/** Names the place the picture was taken from, so that the next picture from there starts with these marks. */
export const SaveSpot = ({ record, corrections }: { record: LawnRecord; corrections: CorrectionsOf }) => {
  const { data: spots = [] } = useQuery({ queryKey: ['spots'], queryFn: listSpots });
  const [name, setName] = useState('');
  const [trouble, setTrouble] = useState<string | null>(null);
  const client = useQueryClient();
  const keep = async () => {
    setTrouble(null);
    try {
      const spot = await addSpot({ name: name.trim(), marks: record.marks, photo: record.photo });
      await client.invalidateQueries({ queryKey: ['spots'] });
      setName('');
      await corrections.correct({ spot: spot.id });
    } catch (error) {
      setTrouble(sentenceOf(error));
    }
  };
  return (
    <div className={style.spot}>
      {spots.length > 0 && (
        <NativeSelect
          label="Taken from"
          value={record.spot ?? ''}
          onChange={(event) => corrections.correct({ spot: event.currentTarget.value || null })}
          data={[
            { value: '', label: 'No named spot' },
            ...spots.map(({ id, name: label }) => ({ value: id, label })),
          ]}
        />
      )}
      {record.spot === null && (
        <form
          className={style.spotForm}
          onSubmit={(event) => {
            event.preventDefault();
            if (name.trim()) keep();
          }}
        >
          <TextInput
            label="Name this spot"
            description="The next picture from here starts with these pins."
            placeholder="Clubhouse balcony"
            value={name}
            maxLength={80}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <Button type="submit" variant="default" disabled={!name.trim()}>
            Keep the spot
          </Button>
        </form>
      )}
      {trouble && <p role="alert">{trouble}</p>}
    </div>
  );
};
