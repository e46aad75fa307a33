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

const across = (
  part: { sdX: number; sdY: number; sdBeyond?: number | undefined },
  axis: 'x' | 'y' | null,
): number =>
  part.sdBeyond ?? (axis === 'x' ? part.sdX : axis === 'y' ? part.sdY : Math.hypot(part.sdX, part.sdY));

const mm = (metres: number): string => {
  const value = giveOrTake(metres) * 1000;
  return value < 0.95 ? 'under 1 mm' : `${Math.round(value)} mm`;
};

/** What limits a ball's place, as one bar cut in the shares of each source, and each in mm; what the picture could do at best. */
export const Budget = ({
  ball,
  axis,
}: {
  ball: Pick<FoundBall, 'budget' | 'bound'>;
  axis: 'x' | 'y' | null;
}) => {
  const { budget, bound } = ball;
  if (!budget) return null;
  const shares = PARTS.flatMap(([name, words], i) => {
    const part = budget[name];
    return part ? [{ name, words, sd: across(part, axis), tone: i }] : [];
  });
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
