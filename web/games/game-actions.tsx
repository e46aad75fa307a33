import { Button } from '@mantine/core';
import { useState } from 'react';
import type { Game } from '../service/games.ts';
import { EndForm, SuspendForm } from './end-forms.tsx';
import { FaultForm } from './fault-form.tsx';
import style from './forms.module.css';
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
  if (possible.length === 0) return null;
  const Form = open && FORMS[open].form;
  return (
    <section className={style.actions}>
      <h2>Beside the turns</h2>
      <div className={style.pairs}>
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
    </section>
  );
};
