import { Button } from '@mantine/core';
import { Link } from 'wouter';
import { type Game, printAddress } from '../service/games.ts';
import style from './forms.module.css';

type Print = Parameters<typeof printAddress>[1];

/** What can be kept of a game, each under what people call it. */
const FILES: readonly { readonly name: Print; readonly label: string; readonly ending: string | null }[] = [
  { name: 'score.pdf', label: 'Score sheet', ending: null },
  { name: 'putback.pdf', label: 'Put-back card', ending: null },
  { name: 'export.json', label: 'The whole log', ending: 'json' },
  { name: 'positions.csv', label: 'Places as a table', ending: 'csv' },
  { name: 'plan.png', label: 'Plan as a picture', ending: 'png' },
  { name: 'plan.svg', label: 'Plan as a drawing', ending: 'svg' },
];

/** Prints and files of a game; the plan and the card are those of the moment shown, after entry `number`. */
export const KeepAndPrint = ({ game, number }: { game: Game; number: number }) => {
  const address = (name: Print) =>
    name.startsWith('plan') || name === 'putback.pdf'
      ? printAddress(game.id, name, number)
      : printAddress(game.id, name);
  return (
    <section className={style.actions}>
      <h2>Keep and print</h2>
      <div className={style.pairs}>
        <Button variant="default" component={Link} href={`/games/${game.id}/putback?entry=${number}`}>
          Where balls go back
        </Button>
        {FILES.map(({ name, label, ending }) => (
          <Button
            key={name}
            variant="default"
            component="a"
            href={address(name)}
            {...(ending ? { download: `${game.title}.${ending}` } : { target: '_blank' })}
          >
            {label}
          </Button>
        ))}
      </div>
    </section>
  );
};
