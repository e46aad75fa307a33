import { NativeSelect } from '@mantine/core';
import type { LawnRecord } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { CorrectionsOf } from '../reading/use-reading.ts';
import { ballName } from '../words/balls.ts';
import { ARRIVAL_WORDS, ARRIVALS, type ArrivalName, arrivalOf, nameOfArrival } from './arrival.ts';

type Props = {
  readonly record: LawnRecord;
  readonly colour: BallColour;
  readonly corrections: CorrectionsOf;
};

/** Asks what no picture shows: how a ball past the line came to be there. */
export const HowItCame = ({ record, colour, corrections }: Props) => (
  <NativeSelect
    label={`How did ${ballName(colour)} come to lie there?`}
    value={nameOfArrival(record.arrivedBy[colour], colour) ?? ''}
    disabled={corrections.busy}
    onChange={(event) => {
      const name = event.currentTarget.value as ArrivalName | '';
      corrections.correct({ arrivedBy: { [colour]: name === '' ? null : arrivalOf(name, colour) } });
    }}
    data={[
      { value: '', label: 'Not said yet' },
      ...ARRIVALS.map((name) => ({ value: name, label: ARRIVAL_WORDS[name] })),
    ]}
  />
);
