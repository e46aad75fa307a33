import { NumberInput } from '@mantine/core';
import { useEffect, useState } from 'react';

type Props = {
  readonly label: string;
  readonly description: string;
  /** In the unit that is shown. */
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly decimals: number;
  readonly step: number;
  readonly suffix: string;
  readonly onCommit: (value: number) => void;
};

/** A number that is kept when the field is left or Enter pressed, if it lies within its bounds. */
export const CommitNumber = ({
  label,
  description,
  value,
  least,
  most,
  decimals,
  step,
  suffix,
  onCommit,
}: Props) => {
  const [text, setText] = useState<number | string>(value);
  useEffect(() => setText(Number(value.toFixed(decimals))), [value, decimals]);
  const commit = () => {
    const number = typeof text === 'number' ? text : Number.parseFloat(text);
    if (number >= least && number <= most) {
      if (Math.abs(number - value) > 10 ** -decimals / 2) onCommit(number);
    } else setText(Number(value.toFixed(decimals)));
  };
  return (
    <NumberInput
      label={label}
      description={description}
      value={text}
      onChange={setText}
      onBlur={commit}
      onKeyDown={(event) => event.key === 'Enter' && commit()}
      min={least}
      max={most}
      step={step}
      decimalScale={decimals}
      suffix={` ${suffix}`}
      clampBehavior="none"
      hideControls
    />
  );
};
