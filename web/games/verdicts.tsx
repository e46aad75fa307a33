import type { OffsideRuling } from '../../server/rules/offside.ts';
import { sentence } from '../../server/rules/ruling.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName } from '../words/balls.ts';
import style from './rulings.module.css';

const WORDS = {
  offside: 'is offside',
  excused: 'is past the line and may stay',
  historyNeeded: 'is past the line, and how it came there must be said',
  onside: 'is onside',
  tooClose: 'is too close to call',
} as const;

/** The rules' word on each ball after the turn that scored; nothing of balls that are plainly onside. */
export const Verdicts = ({ offside }: { offside: readonly OffsideRuling[] }) => {
  const told = offside.filter(({ verdict }) => verdict !== 'onside');
  if (told.length === 0) return null;
  return (
    <ul className={style.verdicts}>
      {told.map(({ colour, verdict, reason, rule }) => (
        <li key={colour} data-verdict={verdict}>
          <BallDisc colour={colour} size={36} />
          <span>
            <b>
              {ballName(colour)} {WORDS[verdict]}.
            </b>{' '}
            {reason} <span className="soft">{sentence(rule)}.</span>
          </span>
        </li>
      ))}
    </ul>
  );
};
