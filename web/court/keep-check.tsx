import { Button } from '@mantine/core';
import { useState } from 'react';
import type { CheckRecord } from '../../server/contract/record.ts';
import { addLawn, changeLawn, listLawns } from '../service/club.ts';
import { sentenceOf } from '../service/request.ts';
import { useSettings } from '../settings/use-settings.ts';

/** Keeps this check as the lawn's latest, with its date. */
export const KeepCheck = ({ record }: { record: CheckRecord }) => {
  const { lawn } = useSettings();
  const [told, setTold] = useState<string | null>(null);
  const keep = async () => {
    try {
      const { width, length, unevenness } = record.marks.lawn;
      const lawns = await listLawns();
      const known =
        lawns.find(({ name }) => name === lawn.name) ??
        (await addLawn({ name: lawn.name, width, length, unevenness }));
      await changeLawn(known.id, { check: { id: record.id, at: record.createdAt } });
      setTold(`Kept as the latest check of ${lawn.name}.`);
    } catch (error) {
      setTold(sentenceOf(error));
    }
  };
  return (
    <>
      <Button variant="default" onClick={keep}>
        Keep as {lawn.name}'s check
      </Button>
      <p role="status">{told}</p>
    </>
  );
};
