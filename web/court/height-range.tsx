import { useEffect, useId, useState } from 'react';
import { useSettings } from '../settings/use-settings.ts';
import style from './stand.module.css';
import { heightInWords } from './stand-words.ts';

/** Heights that are offered, metres: from a hand at eye height on the grass to a roof or mast. */
const HEIGHTS = { least: 1.5, most: 20, step: 0.5 } as const;
/** The question is asked once the thumb has rested this long, ms. */
const REST = 180;

/** How high the phone is held, by a slide under the thumb; the height is told as it moves. */
export const HeightRange = ({ height, onChange }: { height: number; onChange: (height: number) => void }) => {
  const id = useId();
  const { units } = useSettings();
  const [shown, setShown] = useState(height);
  useEffect(() => {
    if (shown === height) return;
    const timer = setTimeout(() => onChange(shown), REST);
    return () => clearTimeout(timer);
  }, [shown, height, onChange]);
  const words = heightInWords(shown, units);
  return (
    <div className={style.height}>
      <label htmlFor={id}>Height of the phone above the lawn</label>
      <output htmlFor={id}>{words}</output>
      <input
        id={id}
        type="range"
        min={HEIGHTS.least}
        max={HEIGHTS.most}
        step={HEIGHTS.step}
        value={shown}
        aria-valuetext={words}
        onChange={(event) => setShown(Number(event.currentTarget.value))}
      />
      <p className="soft">
        Standing on the grass {heightInWords(1.5, units)}, a terrace {heightInWords(3, units)}, a first floor{' '}
        {heightInWords(5, units)}, a second floor {heightInWords(8, units)}.
      </p>
    </div>
  );
};
