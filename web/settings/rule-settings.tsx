import type { Settings } from '../../server/contract/settings.ts';
import { METRES_PER_YARD } from '../../server/units/numbers.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import { CommitNumber } from './commit-number.tsx';

type Props = { readonly settings: Settings; readonly onChange: (change: Partial<Settings>) => void };

const CERTAINTIES = [0.95, 0.99, 0.999] as const;

/** Edition, certainty, balls, penalty areas, tolerance: what decides when a call is firm and what follows from it. */
export const RuleSettings = ({ settings, onChange }: Props) => (
  <section>
    <h2>Rules and calls</h2>
    <ChoiceTiles
      label="Rules in force"
      across={2}
      value={settings.edition}
      onChoose={(edition) => onChange({ edition })}
      options={[
        { value: '2022', face: '6th edition, 2022' },
        { value: '2013', face: '4th edition, 2013' },
      ]}
    />
    <ChoiceTiles
      label="A call is firm from"
      across={3}
      value={settings.certainty}
      onChoose={(certainty) => onChange({ certainty })}
      options={CERTAINTIES.map((value) => ({
        value,
        face: value === 0.999 ? '999 in 1000' : `${Math.round(value * 100)} in 100`,
      }))}
    />
    <ChoiceTiles
      label="Balls usually on the lawn"
      across={3}
      value={settings.ballSet}
      onChoose={(ballSet) => onChange({ ballSet })}
      options={[
        { value: 'first', face: 'First colours' },
        { value: 'second', face: 'Second colours' },
        { value: 'both', face: 'Both games' },
      ]}
    />
    <CommitNumber
      label="Radius of the penalty areas"
      description="Half circles on the middles of the west and east boundaries. Descriptions differ, one yard or half of it: check your rule book."
      value={settings.penaltyRadius / METRES_PER_YARD}
      least={0.15}
      most={3}
      decimals={2}
      step={0.25}
      suffix="yd"
      onCommit={(value) => onChange({ penaltyRadius: value * METRES_PER_YARD })}
    />
    <CommitNumber
      label="Tolerance of the court's setting"
      description="How far a mark, hoop or peg may stand from its place before a court check calls it off."
      value={settings.tolerance * 1000}
      least={1}
      most={1000}
      decimals={0}
      step={10}
      suffix="mm"
      onCommit={(value) => onChange({ tolerance: value / 1000 })}
    />
  </section>
);
