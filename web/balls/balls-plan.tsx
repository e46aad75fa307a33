import type { LawnRecord } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { courtOfMarks } from '../perspective/reading-camera.ts';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import { ballName, listed } from '../words/balls.ts';
import style from './balls.module.css';

/** The plan beside the photo, on wide screens. */
export const BallsPlan = ({ record, chosen }: { record: LawnRecord; chosen: BallColour | null }) => (
  <div className={style.plan}>
    <LawnPlan
      court={courtOfMarks(record.marks.lawn)}
      label={`Plan of the lawn with ${listed(record.balls.map(({ colour }) => ballName(colour))) || 'no balls'}`}
      line={record.call?.line}
      balls={record.balls}
      chosen={chosen}
    />
  </div>
);
