import { type ReactNode, useId } from 'react';
import style from './parts.module.css';

type Props<T extends string | number> = {
  readonly label: string;
  readonly options: readonly {
    readonly value: T;
    readonly face: ReactNode;
    readonly name?: string;
    readonly wide?: boolean;
  }[];
  readonly value: T | null;
  readonly onChoose: (value: T) => void;
  /** Tiles in one row. */
  readonly across?: number;
};

/** One of a few, as large tiles: radio buttons to keyboard and screen reader. */
export const ChoiceTiles = <T extends string | number>({
  label,
  options,
  value,
  onChoose,
  across = 4,
}: Props<T>) => {
  const name = useId();
  return (
    <fieldset className={style.tiles} style={{ '--across': across } as React.CSSProperties}>
      <legend>{label}</legend>
      <div>
        {options.map((option) => (
          <label key={option.value} className={style.tile} data-wide={option.wide || undefined}>
            <input
              type="radio"
              name={name}
              checked={option.value === value}
              aria-label={option.name}
              onChange={() => onChoose(option.value)}
            />
            <span>{option.face}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
};
