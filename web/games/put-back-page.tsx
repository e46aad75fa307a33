import { Button } from '@mantine/core';
import { Link, useSearchParams } from 'wouter';
import { putBackCard } from '../../server/games/put-back.ts';
import { courtOf } from '../../server/games/state.ts';
import parts from '../parts/parts.module.css';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import { type Game, printAddress } from '../service/games.ts';
import formsStyle from './forms.module.css';
import { GameScreen } from './game-screen.tsx';
import { momentsOf } from './moments.ts';
import putBackStyle from './put-back.module.css';
import { PutBackLines } from './put-back-lines.tsx';
import { sayEvent } from './say-event.ts';

const Card = ({ game }: { game: Game }) => {
  const [search] = useSearchParams();
  const moments = momentsOf(game.events);
  const asked = Number(search.get('entry') ?? 0);
  const moment = moments.find(({ number }) => number === asked) ?? moments.at(-1);
  if (!moment) return null;
  const court = courtOf(moment.after.setup);
  const lines = putBackCard(moment.after.balls, court);
  const reading = 'reading' in moment.event ? moment.event.reading : undefined;
  return (
    <div className={parts.page}>
      <h1>Putting balls back</h1>
      <p>
        As they lay after: <b>{sayEvent(moment.event, moment.before)}</b>
      </p>
      {lines.length === 0 ? (
        <p>No ball's place is known at this moment.</p>
      ) : (
        <div className={putBackStyle.putBackSides}>
          <LawnPlan
            court={court}
            label="Plan with every ball's place"
            balls={lines.map(({ ball, place }) => ({ colour: ball, ...place }))}
          />
          <PutBackLines lines={lines} />
        </div>
      )}
      <div className={`${formsStyle.choices} no-print`}>
        <Button
          variant="default"
          component="a"
          href={printAddress(game.id, 'putback.pdf', moment.number)}
          target="_blank"
        >
          Card to print
        </Button>
        {reading && (
          <Button variant="default" component={Link} href={`/call/${reading}`}>
            The photo of this moment
          </Button>
        )}
        <Button variant="subtle" component={Link} href={`/games/${game.id}`}>
          Back to the game
        </Button>
      </div>
    </div>
  );
};

/** A card for any moment of the game: by which lengths each ball is put back where it lay. */
export const PutBackPage = ({ id }: { id: string }) => (
  <GameScreen id={id}>{(game) => <Card game={game} />}</GameScreen>
);
