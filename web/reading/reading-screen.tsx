import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { PhotoRecord } from '../../server/contract/record.ts';
import { Refusal, sentenceOf } from '../service/request.ts';
import { Message } from '../shell/message.tsx';
import { useReading } from './use-reading.ts';

/** Fetches a record and shows it, or says why it cannot. */
export const ReadingScreen = ({
  id,
  children,
}: {
  id: string;
  children: (record: PhotoRecord) => ReactNode;
}) => {
  const { data, error, refetch, isFetching } = useReading(id);
  if (data) return children(data);
  if (error instanceof Refusal && error.status === 404)
    return (
      <Message title="This reading is not there">
        <p>It was deleted, or its address is not complete.</p>
        <Link href="/readings">To the readings</Link>
      </Message>
    );
  if (error)
    return (
      <Message title="The reading could not be fetched">
        <p>{sentenceOf(error)}</p>
        <Button loading={isFetching} onClick={() => refetch()}>
          Ask again
        </Button>
      </Message>
    );
  return <Message title="Fetching the reading" />;
};
