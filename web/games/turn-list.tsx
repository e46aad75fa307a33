import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import type { Game } from '../api/games.ts';
import { timeOfDay } from '../words/times.ts';
import style from './games.module.css';
import type { Moment } from './moments.ts';
import { sayEvent } from './say-event.ts';
import type { Logging } from './use-game.ts';

type Props = {
  readonly game: Game;
  readonly moments: readonly Moment[];
  /** The entry shown on the plan; null for how things stand now. */
  readonly at: number | null;
  readonly onAt: (at: number | null) => void;
  readonly logging: Logging;
};

const isPlay = ({ event }: Moment): boolean => event.type === 'turn' || event.type === 'wrongBall';

/** What can be done about an entry: look at its picture, correct it, take it out, put one in after it. */
const EntryActions = ({ game, moment, logging }: { game: Game; moment: Moment; logging: Logging }) => {
  const [asked, setAsked] = useState(false);
  const { event, number } = moment;
  const reading = 'reading' in event ? event.reading : undefined;
  return (
    <div className={style.entryActions}>
      {reading && (
        <Button variant="default" component={Link} href={`/call/${reading}`}>
          Its photo and call
        </Button>
      )}
      {isPlay(moment) && (
        <Button variant="default" component={Link} href={`/games/${game.id}/turn?correct=${number}`}>
          Correct this turn
        </Button>
      )}
      <Button variant="default" component={Link} href={`/games/${game.id}/turn?after=${number}`}>
        Put in a forgotten turn after it
      </Button>
      <Button variant="default" component={Link} href={`/games/${game.id}/putback?entry=${number}`}>
        Where the balls lay
      </Button>
      {event.type !== 'begun' &&
        (asked ? (
          <Button
            loading={logging.busy}
            onClick={() =>
              logging.log({ type: 'correction', how: 'remove', entry: number }).then(() => setAsked(false))
            }
          >
            Yes, take it out
          </Button>
        ) : (
          <Button variant="subtle" onClick={() => setAsked(true)}>
            Take this entry out
          </Button>
        ))}
    </div>
  );
};

/** The log as a list, the latest first; an entry that is tapped is shown on the plan and can be corrected. */
export const TurnList = ({ game, moments, at, onAt, logging }: Props) => {
  const corrections = game.events.filter(({ event }) => event.type === 'correction').length;
  const when = new Map(game.events.map(({ number, at: instant }) => [number, instant]));
  return (
    <section>
      <h2>Turns</h2>
      {logging.trouble && (
        <p role="alert" className={style.trouble}>
          {logging.trouble}
        </p>
      )}
      {corrections > 0 && (
        <p className="soft">
          {corrections === 1 ? 'One entry was' : `${corrections} entries were`} corrected; the log keeps what
          stood before.
        </p>
      )}
      <ol className={style.turns} reversed>
        {moments
          .map((moment, i) => ({ moment, i }))
          .reverse()
          .map(({ moment, i }) => (
            <li key={moment.number} data-shown={i === at || undefined}>
              <button type="button" onClick={() => onAt(i === at ? null : i)} aria-expanded={i === at}>
                <span className="soft">{timeOfDay(when.get(moment.number) ?? 0)}</span>{' '}
                {sayEvent(moment.event, moment.before)}
              </button>
              {i === at && <EntryActions game={game} moment={moment} logging={logging} />}
            </li>
          ))}
      </ol>
    </section>
  );
};
