import { lineName, towards } from '../../server/contract/words/places.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { halfwayLine, SCORED_POINTS, type ScoredPoint } from '../../server/lawn/halfway-lines.ts';
import { type HoopPoint, hoopOfPoint } from '../../server/lawn/hoops.ts';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import style from './marking.module.css';

/** What follows for the line, in a sentence. */
const lineSentence = (scored: ScoredPoint): string => {
  const line = halfwayLine(STANDARD_COURT, scored);
  return `The line runs ${lineName(line, STANDARD_COURT)}; the next hoop lies to the ${towards(line)}.`;
};

type Props = {
  readonly value: HoopPoint | null;
  readonly onChange: (point: HoopPoint | null) => void;
  /** Whether there must be a hoop. */
  readonly must?: boolean;
};

/** Which hoop was just scored: that gives the halfway line. */
export const HoopScored = ({ value, onChange, must = false }: Props) => (
  <div className={style.hoop}>
    <ChoiceTiles
      label="Hoop just scored"
      across={6}
      value={value ?? 0}
      onChoose={(point) => onChange(point === 0 ? null : (point as HoopPoint))}
      options={[
        ...SCORED_POINTS.map((point) => ({
          value: point as number,
          name: `Hoop ${point}${point > 6 ? `, at hoop ${hoopOfPoint(point)}` : ''}`,
          face: (
            <span className={style.hoopFace}>
              {point}
              {point > 6 && <small>at {hoopOfPoint(point)}</small>}
            </span>
          ),
        })),
        ...(must
          ? []
          : [{ value: 0, name: 'No hoop: places only', face: 'No hoop: places only', wide: true }]),
      ]}
    />
    <p className="soft" aria-live="polite">
      {value !== null && value < 13
        ? lineSentence(value as ScoredPoint)
        : 'Without a hoop there is no halfway line: you get the places of the balls.'}
    </p>
  </div>
);
