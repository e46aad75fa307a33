import type { FoundBall } from '../../server/contract/reading.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';
import parts from '../parts/parts.module.css';
import style from './call.module.css';

const PARTS = [
  ['marks', 'your pins'],
  ['trace', 'the traced lines'],
  ['lens', 'the lens'],
  ['fit', "the ball's outline"],
  ['unevenness', 'bumps in the lawn'],
  ['grass', 'the ball sitting in the grass'],
] as const;

type Spread = { readonly sdX: number; readonly sdY: number; readonly sdBeyond?: number | undefined };

const across = (part: Spread, axis: 'x' | 'y' | null): number =>
  part.sdBeyond ?? (axis === 'x' ? part.sdX : axis === 'y' ? part.sdY : Math.hypot(part.sdX, part.sdY));

const mm = (metres: number): string => {
  const value = giveOrTake(metres) * 1000;
  return value < 0.95 ? 'under 1 mm' : `${Math.round(value)} mm`;
};

/** A ball with what its place is made of; `known` is a sighting's, which follows no lines. */
export type Budgeted = Pick<FoundBall, 'budget' | 'bound'> & {
  readonly known?: { readonly stance: Spread; readonly balls: Spread } | undefined;
};

type Source = { readonly name: string; readonly words: string; readonly part: Spread; readonly tone: number };

/** Where the doubt comes from; what a sighting knows without marks takes the place of the traced lines. */
const sourcesOf = ({ budget, known }: Budgeted): Source[] => {
  if (!budget) return [];
  const plain = PARTS.flatMap(([name, words], tone): Source[] => {
    const part = budget[name];
    return part && !(known && name === 'trace') ? [{ name, words, part, tone }] : [];
  });
  if (!known) return plain;
  return [
    ...plain,
    { name: 'stance', words: 'how people hold a phone', part: known.stance, tone: 1 },
    { name: 'balls', words: 'the size of the balls', part: known.balls, tone: 6 },
  ];
};

/** What limits a ball's place, as one bar cut in the shares of each source, and each in mm; what the picture could do at best. */
export const Budget = ({ ball, axis }: { ball: Budgeted; axis: 'x' | 'y' | null }) => {
  const { bound } = ball;
  const shares = sourcesOf(ball).map(({ part, ...source }) => ({ ...source, sd: across(part, axis) }));
  const total = shares.reduce((sum, { sd }) => sum + sd * sd, 0);
  if (!(total > 0)) return null;
  return (
    <details className={parts.more}>
      <summary>What limits this answer</summary>
      <div className={style.bar} aria-hidden="true">
        {shares.map(({ name, sd, tone }) => (
          <span key={name} data-tone={tone} style={{ width: `${(100 * sd * sd) / total}%` }} />
        ))}
      </div>
      <ul className={style.parts}>
        {shares.map(({ name, words, sd, tone }) => (
          <li key={name}>
            <span className={style.swatch} data-tone={tone} aria-hidden="true" />
            {words}: give or take {mm(sd)}
          </li>
        ))}
      </ul>
      {bound && <p>The best this picture could do: give or take {mm(across(bound, axis))}.</p>}
    </details>
  );
};
