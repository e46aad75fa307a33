import { METRES_PER_YARD } from '../../server/units/numbers.ts';
import type { CourtQuestion } from '../draft/draft.ts';
import { CommitNumber } from '../settings/commit-number.tsx';
import { useSettings } from '../settings/use-settings.ts';
import style from './court-ask.module.css';
import { TapeAsk } from './tape-ask.tsx';

type Props = { readonly question: CourtQuestion; readonly onChange: (question: CourtQuestion) => void };

/** Width and length between the inner edges, in the club's unit. */
const SizeAsk = ({ question, onChange }: Props) => {
  const { lawn, units } = useSettings();
  const imperial = units === 'imperial';
  const unit = imperial ? METRES_PER_YARD : 1;
  const size = question.size ?? { width: lawn.width, length: lawn.length };
  const field = (name: 'width' | 'length', label: string) => (
    <CommitNumber
      label={label}
      description="Between the inner edges."
      value={size[name] / unit}
      least={5 / unit}
      most={60 / unit}
      decimals={imperial ? 2 : 3}
      step={0.5}
      suffix={imperial ? 'yd' : 'm'}
      onCommit={(value) =>
        onChange({ ...question, size: { width: size.width, length: size.length, [name]: value * unit } })
      }
    />
  );
  return (
    <div className={style.pair}>
      {field('width', 'Width, west to east')}
      {field('length', 'Length, south to north')}
    </div>
  );
};

/** What a court is checked against: tolerance, the lawn's size, a taped distance if there is one. */
export const CourtAsk = ({ question, onChange }: Props) => {
  const { tolerance } = useSettings();
  return (
    <>
      <CommitNumber
        label="Tolerance"
        description="How far a mark, hoop or the peg may stand from its place. Ask your rule book or the event."
        value={(question.tolerance ?? tolerance) * 1000}
        least={1}
        most={1000}
        decimals={0}
        step={5}
        suffix="mm"
        onCommit={(value) => onChange({ ...question, tolerance: value / 1000 })}
      />
      <SizeAsk question={question} onChange={onChange} />
      <TapeAsk taped={question.taped} onChange={(taped) => onChange({ ...question, taped })} />
    </>
  );
};
