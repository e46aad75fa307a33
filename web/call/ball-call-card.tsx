import type { BallCall } from '../../server/contract/reading.ts';
import type { LawnRecord } from '../../server/contract/record.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import type { CorrectionsOf } from '../reading/use-reading.ts';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';
import { Budget } from './budget.tsx';
import style from './call.module.css';
import { CloseUp } from './close-up.tsx';
import { HowItCame } from './how-it-came.tsx';
import { sayCall } from './say-call.ts';

type Props = {
  readonly record: LawnRecord;
  readonly call: BallCall;
  readonly next: string;
  readonly open: boolean;
  readonly onOpen: () => void;
  readonly corrections: CorrectionsOf;
};

/** The rules' word on a ball, with the rule behind it. */
const Verdict = ({ record, call }: Pick<Props, 'record' | 'call'>) => {
  const verdict = record.verdict?.balls.find(({ colour }) => colour === call.colour);
  if (!verdict || call.lies === 'tooClose') return null;
  return (
    <p className={style.reason}>
      {verdict.reason} <span className="soft">{verdict.rule}</span>
    </p>
  );
};

const Settle = ({ call }: { call: BallCall }) => {
  if (!call.settle?.length) return null;
  return (
    <div className={style.settle}>
      <h2>What would settle it</h2>
      <ol>
        {call.settle.map(({ action, message }) => (
          <li key={action}>{message}</li>
        ))}
      </ol>
    </div>
  );
};

const Inside = ({ record, call, next, corrections }: Omit<Props, 'open' | 'onOpen'>) => {
  const ball = record.balls.find(({ colour }) => colour === call.colour);
  return (
    <div className={style.inside}>
      <CloseUp call={call} next={next} />
      <Settle call={call} />
      <Verdict record={record} call={call} />
      {call.lies === 'beyond' && <HowItCame record={record} colour={call.colour} corrections={corrections} />}
      {ball && <Budget ball={ball} axis={record.call!.line.axis} />}
    </div>
  );
};

const WORDS = {
  offside: 'Offside',
  excused: 'Past the line, and may stay',
  historyNeeded: 'Offside unless excused',
  onside: 'Onside',
  tooClose: 'Undecided',
} as const;

/** One ball's call: letter and sentence always, close-up and the rest when it is opened. */
export const BallCallCard = ({ record, call, next, open, onOpen, corrections }: Props) => {
  const { units } = useSettings();
  const said = sayCall(call, units);
  const verdict = record.verdict?.balls.find(({ colour }) => colour === call.colour)?.verdict;
  return (
    <li className={style.card} data-lies={call.lies} data-open={open || undefined}>
      <button type="button" className={style.cardHead} aria-expanded={open} onClick={onOpen}>
        <BallDisc colour={call.colour} size={44} />
        <span>
          <span className={style.decides}>
            {ballName(call.colour)}: {said.decides[0]!.toLowerCase() + said.decides.slice(1)},
          </span>{' '}
          <span className={style.figures}>{said.figures}.</span>
          {verdict && verdict !== 'onside' && <span className={style.word}>{WORDS[verdict]}</span>}
        </span>
      </button>
      {open && <Inside record={record} call={call} next={next} corrections={corrections} />}
    </li>
  );
};
