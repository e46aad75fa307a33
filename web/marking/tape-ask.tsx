import { Button, NativeSelect } from '@mantine/core';
import { pointName } from '../../server/contract/words/places.ts';
import { POINT_NAMES, type PointName } from '../../server/lawn/named-points.ts';
import type { CourtQuestion } from '../draft/draft.ts';
import { CommitNumber } from '../settings/commit-number.tsx';
import style from './court-ask.module.css';
import { START_TAPE, trueDistance } from './taped-distance.ts';

type Taped = NonNullable<CourtQuestion['taped']>;

const EndChoice = ({ label, value, other, onChange }: EndProps) => (
  <NativeSelect
    label={label}
    value={value}
    onChange={(event) => onChange(event.currentTarget.value as PointName)}
    data={POINT_NAMES.map((name) => ({ value: name, label: pointName(name), disabled: name === other }))}
  />
);
type EndProps = {
  readonly label: string;
  readonly value: PointName;
  readonly other: PointName;
  readonly onChange: (name: PointName) => void;
};

const TapeFields = ({ taped, onChange }: { taped: Taped; onChange: (taped: Taped | null) => void }) => {
  // Another pair of ends starts from what the tape should read between them.
  const between = (from: PointName, to: PointName) =>
    onChange({ from, to, distance: trueDistance(from, to) });
  return (
    <fieldset className={style.tape}>
      <legend>A taped distance</legend>
      <div className={style.pair}>
        <EndChoice
          label="From"
          value={taped.from}
          other={taped.to}
          onChange={(from) => between(from, taped.to)}
        />
        <EndChoice
          label="To"
          value={taped.to}
          other={taped.from}
          onChange={(to) => between(taped.from, to)}
        />
      </div>
      <CommitNumber
        label="The tape reads"
        description="From the foot of one to the foot of the other, in metres. It starts at what the rules give."
        value={taped.distance}
        least={0.5}
        most={80}
        decimals={3}
        step={0.01}
        suffix="m"
        onCommit={(distance) => onChange({ ...taped, distance })}
      />
      <Button variant="default" onClick={() => onChange(null)}>
        Leave the tape out
      </Button>
    </fieldset>
  );
};

/** One distance measured with a tape, if somebody has one: it tells whether the lawn has its stated size. */
export const TapeAsk = ({
  taped,
  onChange,
}: {
  taped: Taped | null;
  onChange: (taped: Taped | null) => void;
}) =>
  taped ? (
    <TapeFields taped={taped} onChange={onChange} />
  ) : (
    <div>
      <Button variant="default" onClick={() => onChange(START_TAPE)}>
        Add a taped distance
      </Button>
      <p className="soft">
        With one distance measured by tape the check can tell whether the lawn has its full size.
      </p>
    </div>
  );
