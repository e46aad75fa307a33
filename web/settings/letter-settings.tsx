import { TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { Letters, Settings } from '../../server/contract/settings.ts';
import { BALL_COLOURS, type BallColour } from '../../server/lawn/colours.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName } from '../words/balls.ts';
import style from './settings.module.css';

type Props = { readonly settings: Settings; readonly onChange: (letters: Letters) => void };

/** The letter by which each ball is known on plans, whatever its colour looks like. */
export const LetterSettings = ({ settings, onChange }: Props) => {
  const [letters, setLetters] = useState(settings.letters);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => setLetters(settings.letters), [settings.letters]);
  const commit = () => {
    const values = Object.values(letters);
    if (values.some((letter) => !/^\p{L}$/u.test(letter))) return setTrouble('Each ball needs one letter.');
    if (new Set(values).size < values.length)
      return setTrouble('Two balls have the same letter; give each its own.');
    setTrouble(null);
    if (JSON.stringify(letters) !== JSON.stringify(settings.letters)) onChange(letters);
  };
  const set = (colour: BallColour, text: string) =>
    setLetters({ ...letters, [colour]: text.slice(-1).toUpperCase() });
  return (
    <fieldset style={{ border: 0, margin: 0, padding: 0 }}>
      <legend style={{ fontWeight: 700, fontSize: '1.125rem', padding: 0, marginBottom: 8 }}>
        Letters of the balls
      </legend>
      <div className={style.letters}>
        {BALL_COLOURS.map((colour) => (
          <div key={colour} style={{ display: 'flex', gap: 10, alignItems: 'center' }}>
            <BallDisc colour={colour} size={36} />
            <TextInput
              aria-label={`Letter of ${ballName(colour)}`}
              value={letters[colour]}
              onChange={(event) => set(colour, event.currentTarget.value)}
              onBlur={commit}
              w={64}
            />
          </div>
        ))}
      </div>
      {trouble && <p role="alert">{trouble}</p>}
    </fieldset>
  );
};
