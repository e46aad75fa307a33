import { lineName, shortPointName } from '../../server/contract/words/places.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { halfwayLine, type ScoredPoint } from '../../server/lawn/halfway-lines.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import { namedPlace } from '../../server/lawn/named-points.ts';
import { down } from '../plan/lawn-ground.tsx';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import style from './line-ends.module.css';
import { lineEnds } from './needed-points.ts';

/** Which two marks a picture along the line needs, on a small plan: one stands near the phone, the other at the far end. */
export const LineEnds = ({ scored }: { scored: HoopPoint | null }) => {
  const ends = lineEnds(scored);
  if (ends.length !== 2) return null;
  const line = halfwayLine(STANDARD_COURT, scored as ScoredPoint);
  const [first, second] = ends.map(shortPointName) as [string, string];
  return (
    <div className={style.ends}>
      <div>
        <LawnPlan
          court={STANDARD_COURT}
          label={`The line runs ${lineName(line, STANDARD_COURT)}.`}
          line={line}
        >
          {ends.map((name) => {
            const { x, y } = namedPlace(STANDARD_COURT, name);
            return (
              <circle
                key={name}
                cx={x}
                cy={down(STANDARD_COURT, y)}
                r="1.7"
                fill="none"
                stroke="var(--turf-ink)"
                strokeWidth=".4"
              />
            );
          })}
        </LawnPlan>
      </div>
      <p>
        Next you pin the feet of two marks, ringed here: {first} and {second}. One is near the phone, the
        other at the far end. The peg, hoops and corners may be pinned too; each makes the answer surer.
      </p>
    </div>
  );
};
