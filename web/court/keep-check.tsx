import { Button } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { Link } from 'wouter';
import type { CheckRecord } from '../../server/contract/record.ts';
import { addLawn, changeLawn, listLawns } from '../service/club.ts';
import { sentenceOf } from '../service/request.ts';
import { useSettings } from '../settings/use-settings.ts';
import { dayName, timeOfDay } from '../words/times.ts';

const keepAs = async (record: CheckRecord, name: string): Promise<void> => {
  const { width, length, unevenness } = record.marks.lawn;
  const lawns = await listLawns();
  const known =
    lawns.find((lawn) => lawn.name === name) ?? (await addLawn({ name, width, length, unevenness }));
  await changeLawn(known.id, { check: { id: record.id, at: record.createdAt } });
};

const momentOf = (at: string): string => `${dayName(at)}, ${timeOfDay(at)}`;

/** Whether this check is the lawn's kept one, and since when; else which one is, and a button that keeps this one in its place. */
export const KeepCheck = ({ record }: { record: CheckRecord }) => {
  const { lawn } = useSettings();
  const client = useQueryClient();
  const { data: lawns = [] } = useQuery({ queryKey: ['lawns'], queryFn: listLawns });
  const keep = useMutation({
    mutationFn: () => keepAs(record, lawn.name),
    onSuccess: () => client.invalidateQueries({ queryKey: ['lawns'] }),
  });
  const own = lawns.find(({ check }) => check?.id === record.id);
  if (own)
    return (
      <p role="status">
        Kept as the latest check of {own.name}, of {momentOf(own.check!.at)}.
      </p>
    );
  const other = lawns.find(({ name }) => name === lawn.name)?.check;
  return (
    <>
      <Button variant="default" loading={keep.isPending} onClick={() => keep.mutate()}>
        Keep as {lawn.name}'s check
      </Button>
      <div role="status">
        {keep.error && <p>{sentenceOf(keep.error)}</p>}
        {other && (
          <p>
            The kept check of {lawn.name} is{' '}
            <Link href={`/court/check/${other.id}`}>that of {momentOf(other.at)}</Link>.
          </p>
        )}
      </div>
    </>
  );
};
