import { Button, TextInput } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { Spot } from '../../server/contract/spot.ts';
import { changeSpot, listSpots, removeSpot } from '../service/club.ts';
import { sentenceOf } from '../service/request.ts';
import { timeOfDay } from '../words/times.ts';
import style from './settings.module.css';

const Row = ({ spot }: { spot: Spot }) => {
  const client = useQueryClient();
  const [name, setName] = useState(spot.name);
  const settle = () => client.invalidateQueries({ queryKey: ['spots'] });
  const rename = useMutation({
    mutationFn: () => changeSpot(spot.id, { name: name.trim() }),
    onSettled: settle,
  });
  const forget = useMutation({ mutationFn: () => removeSpot(spot.id), onSettled: settle });
  const error = rename.error ?? forget.error;
  return (
    <li>
      <TextInput
        aria-label="Name of the spot"
        value={name}
        maxLength={80}
        onChange={(event) => setName(event.currentTarget.value)}
        onBlur={() => name.trim() && name.trim() !== spot.name && rename.mutate()}
      />
      <span className="soft">{spot.marks ? `marked ${timeOfDay(spot.updatedAt)}` : 'no marks yet'}</span>
      <Button variant="subtle" onClick={() => forget.mutate()}>
        Forget
      </Button>
      {error && <p role="alert">{sentenceOf(error)}</p>}
    </li>
  );
};

/** The places pictures are taken from. They are named after a call; here they are renamed and forgotten. */
export const SpotSettings = () => {
  const { data: spots = [] } = useQuery({ queryKey: ['spots'], queryFn: listSpots });
  return (
    <section>
      <h2>Spots</h2>
      {spots.length === 0 ? (
        <p className="soft">
          No spot has a name yet. After a call, name the place the picture was taken from: the next one starts
          with its pins.
        </p>
      ) : (
        <ul className={style.rows}>
          {spots.map((spot) => (
            <Row key={spot.id} spot={spot} />
          ))}
        </ul>
      )}
    </section>
  );
};
