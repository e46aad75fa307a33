import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import type { Game } from '../service/games.ts';
import style from './forms.module.css';
import { isPlay, type Moment } from './moments.ts';
import type { Logging } from './use-game.ts';

type Props = { readonly game: Game; readonly moment: Moment; readonly logging: Logging };

const TakeOut = ({ moment, logging }: Omit<Props, 'game'>) => {
  const [asked, setAsked] = useState(false);
  if (!asked)
    return (
      <Button variant="subtle" onClick={() => setAsked(true)}>
        Take this entry out
      </Button>
    );
  const remove = () =>
    logging.log({ type: 'correction', how: 'remove', entry: moment.number }).then(() => setAsked(false));
  return (
    <Button loading={logging.busy} onClick={remove}>
      Yes, take it out
    </Button>
  );
};

/** What can be done about an entry: look at its picture, correct it, take it out, put one in after it. */
export const EntryActions = ({ game, moment, logging }: Props) => {
  const { event, number } = moment;
  const reading = 'reading' in event ? event.reading : undefined;
  return (
    <div className={style.choices}>
      {reading && (
        <Button variant="default" component={Link} href={`/call/${reading}`}>
          Its photo and call
        </Button>
      )}
      {isPlay(event) && (
        <Button variant="default" component={Link} href={`/games/${game.id}/turn?correct=${number}`}>
          Correct this turn
        </Button>
      )}
      <Button variant="default" component={Link} href={`/games/${game.id}/putback?entry=${number}`}>
        Where the balls lay
      </Button>
      <Button variant="default" component={Link} href={`/games/${game.id}/turn?after=${number}`}>
        Put in a forgotten turn after it
      </Button>
      {event.type !== 'begun' && <TakeOut moment={moment} logging={logging} />}
    </div>
  );
};
