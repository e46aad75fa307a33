import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { type Game, printAddress } from '../api/games.ts';
import { DeleteGame } from './delete-game.tsx';
import { EndForm, SuspendForm } from './end-forms.tsx';
import { FaultForm } from './fault-form.tsx';
import style from './games.module.css';
import { MeasureForm } from './measure-form.tsx';
import { RefereeForm } from './referee-form.tsx';
import type { Logging } from './use-game.ts';

/** What happens beside turns, each in a form of its own. */
const FORMS = {
  fault: { label: 'A fault was made', form: FaultForm },
  measure: { label: 'Balls were moved or put back', form: MeasureForm },
  referee: { label: 'The referee decides', form: RefereeForm },
  suspend: { label: 'Stop for today', form: SuspendForm },
  end: { label: 'End the game', form: EndForm },
} as const;
type FormName = keyof typeof FORMS;

/** What a form of a game is given; `onDone` closes it. */
export type FormProps = { readonly game: Game; readonly logging: Logging; readonly onDone: () => void };

/** Everything else that can be done with a game. */
export const GameActions = ({ game, logging }: { game: Game; logging: Logging }) => {
  const [open, setOpen] = useState<FormName | null>(null);
  const { status } = game.state;
  const possible: FormName[] =
    status === 'ended'
      ? []
      : status === 'suspended'
        ? ['end']
        : ['fault', 'measure', 'referee', 'suspend', 'end'];
  const Form = open && FORMS[open].form;
  return (
    <section className={style.actions}>
      <h2>Also</h2>
      <div className={style.choices}>
        {possible.map((name) => (
          <Button
            key={name}
            variant={open === name ? 'filled' : 'default'}
            aria-expanded={open === name}
            onClick={() => setOpen(open === name ? null : name)}
          >
            {FORMS[name].label}
          </Button>
        ))}
      </div>
      {Form && <Form game={game} logging={logging} onDone={() => setOpen(null)} />}
      <div className={style.choices}>
        <Button variant="default" component={Link} href={`/games/${game.id}/putback`}>
          Where to put balls back
        </Button>
        <Button variant="default" component="a" href={printAddress(game.id, 'score.pdf')} target="_blank">
          Score sheet
        </Button>
        <Button
          variant="default"
          component="a"
          href={printAddress(game.id, 'export.json')}
          download={`${game.title}.json`}
        >
          Save the log
        </Button>
        <Button
          variant="default"
          component="a"
          href={printAddress(game.id, 'positions.csv')}
          download={`${game.title}.csv`}
        >
          Save the places
        </Button>
        <Button
          variant="default"
          component="a"
          href={printAddress(game.id, 'plan.png')}
          download={`${game.title}.png`}
        >
          Save the plan
        </Button>
      </div>
      <DeleteGame id={game.id} />
    </section>
  );
};
