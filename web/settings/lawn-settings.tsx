import { Button, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { Settings } from '../../server/contract/settings.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { METRES_PER_YARD } from '../../server/units/numbers.ts';
import { CommitNumber } from './commit-number.tsx';
import style from './settings.module.css';

type Props = { readonly settings: Settings; readonly onChange: (lawn: Settings['lawn']) => void };

/** The lawn the club plays on: its name, its size between the inner edges of the boundary, how uneven it is. */
export const LawnSettings = ({ settings, onChange }: Props) => {
  const { lawn, units } = settings;
  const unit = units === 'imperial' ? METRES_PER_YARD : 1;
  const suffix = units === 'imperial' ? 'yd' : 'm';
  const [name, setName] = useState(lawn.name);
  useEffect(() => setName(lawn.name), [lawn.name]);
  const keepName = () => {
    if (name.trim() && name.trim() !== lawn.name) onChange({ ...lawn, name: name.trim() });
    else setName(lawn.name);
  };
  const standard = lawn.width === STANDARD_COURT.width && lawn.length === STANDARD_COURT.length;
  return (
    <section>
      <h2>The lawn</h2>
      <TextInput
        label="Name"
        value={name}
        maxLength={80}
        onChange={(event) => setName(event.currentTarget.value)}
        onBlur={keepName}
      />
      <div className={style.pair}>
        <CommitNumber
          label="Width, west to east"
          description="Between the inner edges of the lines."
          value={lawn.width / unit}
          least={5 / unit}
          most={60 / unit}
          decimals={units === 'imperial' ? 2 : 3}
          step={0.5}
          suffix={suffix}
          onCommit={(value) => onChange({ ...lawn, width: value * unit })}
        />
        <CommitNumber
          label="Length, south to north"
          description="Between the inner edges of the lines."
          value={lawn.length / unit}
          least={5 / unit}
          most={60 / unit}
          decimals={units === 'imperial' ? 2 : 3}
          step={0.5}
          suffix={suffix}
          onCommit={(value) => onChange({ ...lawn, length: value * unit })}
        />
      </div>
      {!standard && (
        <Button
          variant="default"
          onClick={() => onChange({ ...lawn, width: STANDARD_COURT.width, length: STANDARD_COURT.length })}
        >
          Back to 28 by 35 yards
        </Button>
      )}
      <CommitNumber
        label="Unevenness"
        description="How far the grass usually lies above or below a true plane. It is part of every give-or-take: 5 mm is a good lawn, 15 mm a bumpy one."
        value={lawn.unevenness * 1000}
        least={0}
        most={100}
        decimals={0}
        step={1}
        suffix="mm"
        onCommit={(value) => onChange({ ...lawn, unevenness: value / 1000 })}
      />
    </section>
  );
};
