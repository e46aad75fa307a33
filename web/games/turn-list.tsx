import { useMemo } from 'react';
import parts from '../parts/parts.module.css';
import { BallDisc } from '../plan/ball-disc.tsx';
import type { Game } from '../service/games.ts';
import { timeOfDay } from '../words/times.ts';
import { EntryActions } from './entry-actions.tsx';
import { isPlay, type Moment } from './moments.ts';
import { sayEvent } from './say-event.ts';
import style from './turns.module.css';
import type { Logging } from './use-game.ts';

type Props = {
  readonly game: Game;
  readonly moments: readonly Moment[];
  /** The moment chosen from the list; null for none. */
  readonly at: number | null;
  readonly onAt: (at: number) => void;
  readonly logging: Logging;
};

/** What corrections there were: their number, and the last reason given. */
const Corrections = ({ game }: { game: Game }) => {
  const corrections = game.events.flatMap(({ event }) => (event.type === 'correction' ? [event] : []));
  if (corrections.length === 0) return null;
  const reason = corrections.findLast((event) => event.reason)?.reason;
  return (
    <p className="soft">
      {corrections.length === 1 ? 'One entry was' : `${corrections.length} entries were`} corrected; the log
      keeps what stood before.{reason && ` Last reason: ${reason}`}
    </p>
  );
};

/** A turn's mark in the list: its ball; other entries have a dash. */
const Mark = ({ moment }: { moment: Moment }) =>
  isPlay(moment.event) ? (
    <BallDisc colour={moment.event.ball} size={26} />
  ) : (
    <span className={style.entryDash} aria-hidden="true" />
  );

/** The log as a list, the latest first; an entry that is tapped is shown on the plan and can be corrected. */
export const TurnList = ({ game, moments, at, onAt, logging }: Props) => {
  const when = useMemo(
    () => new Map(game.events.map(({ number, at: instant }) => [number, instant])),
    [game],
  );
  return (
    <section className={style.log}>
      <h2>Turns</h2>
      {logging.trouble && (
        <p role="alert" className={parts.notice}>
          {logging.trouble}
        </p>
      )}
      <Corrections game={game} />
      <ol className={`${parts.rows} ${style.turns}`} reversed>
        {moments
          .map((moment, i) => ({ moment, i }))
          .reverse()
          .map(({ moment, i }) => (
            <li key={moment.number} data-shown={i === at || undefined} data-entry={moment.number}>
              <button type="button" onClick={() => onAt(i)} aria-expanded={i === at}>
                <Mark moment={moment} />
                <span>{sayEvent(moment.event, moment.before)}</span>
                <time className="soft" dateTime={when.get(moment.number)}>
                  {timeOfDay(when.get(moment.number) ?? 0)}
                </time>
              </button>
              {i === at && <EntryActions game={game} moment={moment} logging={logging} />}
            </li>
          ))}
      </ol>
    </section>
  );
};
