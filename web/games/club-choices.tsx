import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { ClubLawn } from '../../server/contract/spot.ts';
import { EDITIONS, type Edition, editionName } from '../../server/rules/editions.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import { listLawns, listSpots } from '../service/club.ts';
import { useSettings } from '../settings/use-settings.ts';
import style from './forms.module.css';

/** What a game takes from the club unless said otherwise; null is the club's own setting. */
export type ClubChoice = {
  readonly edition: Edition | null;
  readonly lawn: ClubLawn | null;
  readonly spot: string | null;
};

type Props = { readonly choice: ClubChoice; readonly onChoice: (choice: ClubChoice) => void };

/** Edition, lawn and camera place of a game: the club's settings, or others for this game. */
export const ClubChoices = ({ choice, onChoice }: Props) => {
  const settings = useSettings();
  const { data: lawns = [] } = useQuery({ queryKey: ['lawns'], queryFn: listLawns });
  const { data: spots = [] } = useQuery({ queryKey: ['spots'], queryFn: listSpots });
  return (
    <div className={style.stack}>
      <ChoiceTiles
        label="Rules in force"
        across={2}
        value={choice.edition ?? settings.edition}
        onChoose={(edition) => onChoice({ ...choice, edition })}
        options={EDITIONS.toReversed().map((edition) => ({ value: edition, face: editionName(edition) }))}
      />
      <NativeSelect
        label="Lawn"
        value={choice.lawn?.id ?? ''}
        onChange={(event) => {
          const id = event.currentTarget.value;
          onChoice({ ...choice, lawn: lawns.find((lawn) => lawn.id === id) ?? null });
        }}
        data={[
          { value: '', label: settings.lawn.name || "The club's lawn" },
          ...lawns.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      <NativeSelect
        label="Where pictures are taken from"
        value={choice.spot ?? ''}
        onChange={(event) => onChoice({ ...choice, spot: event.currentTarget.value || null })}
        data={[
          { value: '', label: 'No fixed place' },
          ...spots.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
    </div>
  );
};
