import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { RecordSummary } from '../../server/contract/record.ts';
import parts from '../parts/parts.module.css';
import { listSpots } from '../service/club.ts';
import { listGames } from '../service/games.ts';
import { listReadings, type ReadingsQuery } from '../service/readings.ts';
import { sentenceOf } from '../service/request.ts';
import { Message } from '../shell/message.tsx';
import { dayName } from '../words/times.ts';
import { ReadingRow } from './reading-row.tsx';
import style from './readings.module.css';

/** A day of the reader's own zone as the two instants that bound it. */
const boundsOf = (day: string): Pick<ReadingsQuery, 'from' | 'to'> => {
  if (!day) return {};
  const from = new Date(`${day}T00:00:00`);
  const to = new Date(from);
  to.setDate(to.getDate() + 1);
  return { from: from.toISOString(), to: to.toISOString() };
};

const matches = (reading: RecordSummary, words: string): boolean =>
  `${reading.note ?? ''} ${reading.sentence}`.toLowerCase().includes(words.trim().toLowerCase());

const byDay = (readings: readonly RecordSummary[]): [string, RecordSummary[]][] => {
  const days = new Map<string, RecordSummary[]>();
  for (const reading of readings) {
    const day = dayName(reading.createdAt);
    days.set(day, [...(days.get(day) ?? []), reading]);
  }
  return [...days];
};

type Search = { readonly words: string; readonly day: string; readonly spot: string; readonly game: string };

const SearchBar = ({ search, onSearch }: { search: Search; onSearch: (search: Search) => void }) => {
  const { data: spots = [] } = useQuery({ queryKey: ['spots'], queryFn: listSpots });
  const { data: games = [] } = useQuery({ queryKey: ['games'], queryFn: listGames });
  return (
    <search className={style.search}>
      <TextInput
        label="Words in the note or the call"
        value={search.words}
        onChange={(event) => onSearch({ ...search, words: event.currentTarget.value })}
      />
      <TextInput
        label="Day"
        type="date"
        value={search.day}
        onChange={(event) => onSearch({ ...search, day: event.currentTarget.value })}
      />
      <NativeSelect
        label="Spot"
        value={search.spot}
        onChange={(event) => onSearch({ ...search, spot: event.currentTarget.value })}
        data={[{ value: '', label: 'Any' }, ...spots.map(({ id, name }) => ({ value: id, label: name }))]}
      />
      <NativeSelect
        label="Game"
        value={search.game}
        onChange={(event) => onSearch({ ...search, game: event.currentTarget.value })}
        data={[{ value: '', label: 'Any' }, ...games.map(({ id, title }) => ({ value: id, label: title }))]}
      />
    </search>
  );
};

const NOTHING: Search = { words: '', day: '', spot: '', game: '' };

/** The field book: all readings, the newest first, to be searched by words, day, spot and game. */
export const ReadingsPage = () => {
  const [search, setSearch] = useState(NOTHING);
  const { words, day, spot, game } = search;
  const query = { ...boundsOf(day), ...(spot && { spot }), ...(game && { game }) };
  const { data, error, isPending, hasNextPage, fetchNextPage, isFetchingNextPage } = useInfiniteQuery({
    queryKey: ['readings', query],
    queryFn: ({ pageParam }) => listReadings({ ...query, ...(pageParam && { before: pageParam }) }),
    initialPageParam: '',
    getNextPageParam: ({ next }) => next ?? undefined,
  });
  const all = data?.pages.flatMap(({ readings }) => readings) ?? [];
  const shown = all.filter((reading) => matches(reading, words));
  const searching = search !== NOTHING && Object.values(search).some(Boolean);
  return (
    <div className={parts.wide}>
      <h1>Readings</h1>
      {(all.length > 0 || searching) && <SearchBar search={search} onSearch={setSearch} />}
      {error && <p role="alert">{sentenceOf(error)}</p>}
      {!isPending && !error && shown.length === 0 && (
        <Message title={searching ? 'Nothing like that in the book' : 'The book is still empty'}>
          <p>
            {searching
              ? 'Try fewer words, or another day.'
              : 'Each photo you read is kept here with its call.'}
          </p>
        </Message>
      )}
      {byDay(shown).map(([name, readings]) => (
        <section key={name}>
          <h2 className={style.day}>{name}</h2>
          <ul className={parts.rows}>
            {readings.map((reading) => (
              <ReadingRow key={reading.id} reading={reading} />
            ))}
          </ul>
        </section>
      ))}
      {hasNextPage && (
        <Button variant="default" loading={isFetchingNextPage} onClick={() => fetchNextPage()}>
          Older readings
        </Button>
      )}
    </div>
  );
};
