import { Switch } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useEffect } from 'react';
import type { Draft, MarksChange } from '../draft/draft.ts';
import { listLawns } from '../service/club.ts';
import { useSettings } from '../settings/use-settings.ts';
import { dayName } from '../words/times.ts';

/**
 * Whether the places of the two marks come from the lawn's kept court check; nothing without one. It is used unless somebody says no, and only
 * for pictures of this club's lawn: a new picture is taken to be one.
 */
export const UseCheck = ({ draft, onChange }: { draft: Draft; onChange: (change: MarksChange) => void }) => {
  const settings = useSettings();
  const { data: lawns } = useQuery({ queryKey: ['lawns'], queryFn: listLawns });
  const lawn = lawns?.find(({ name, check }) => name === settings.lawn.name && check !== null);
  const fresh = draft.lawn === undefined && draft.state === 'marking';
  useEffect(() => {
    if (lawn && fresh) onChange({ lawn: lawn.id });
  }, [lawn, fresh, onChange]);
  if (!lawn) return null;
  return (
    <Switch
      checked={draft.lawn === lawn.id && draft.useChecked !== false}
      onChange={(event) => onChange({ lawn: lawn.id, useChecked: event.currentTarget.checked })}
      label={`Use the court check of ${dayName(lawn.check!.at)}`}
      description="The line is then drawn where it belongs, should a mark stand a little off its place."
    />
  );
};
