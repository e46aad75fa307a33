import type { BallCall } from '../../server/contract/reading.ts';
import { Budget, type Budgeted } from '../call/budget.tsx';
import style from '../call/call.module.css';
import { CloseUp } from '../call/close-up.tsx';
import { sayCall } from '../call/say-call.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';

type Props = {
  readonly call: BallCall & Budgeted & { readonly origin?: 'found' | 'placed' | undefined };
  readonly axis: 'x' | 'y';
  readonly next: string;
  /** Why this ball is not called, when it is something else than its own doubt. */
  readonly uncalled?: string | undefined;
  readonly open: boolean;
  readonly onOpen: () => void;
};

/** One ball seen along the line: sentence, close-up, what limits it. */
export const SightingCard = ({ call, axis, next, uncalled, open, onOpen }: Props) => {
  const { units } = useSettings();
  const said = sayCall(call, units);
  const decides = uncalled ?? said.decides[0]!.toLowerCase() + said.decides.slice(1);
  return (
    <li className={style.card} data-lies={call.lies}>
      <button type="button" className={style.cardHead} aria-expanded={open} onClick={onOpen}>
        <BallDisc colour={call.colour} size={44} />
        <span>
          <span className={style.decides}>
            {ballName(call.colour)}: {decides},
          </span>{' '}
          <span className={style.figures}>{said.figures}.</span>
        </span>
      </button>
      {open && (
        <div className={style.inside}>
          {call.origin === 'placed' && <p className="soft">Put there by hand, with a hand's doubt.</p>}
          <CloseUp call={call} next={next} />
          {call.settle && call.settle.length > 0 && (
            <div className={style.settle}>
              <h2>What would settle it</h2>
              <ol>
                {call.settle.map(({ action, message }) => (
                  <li key={action}>{message}</li>
                ))}
              </ol>
            </div>
          )}
          <Budget ball={call} axis={axis} />
        </div>
      )}
    </li>
  );
};
