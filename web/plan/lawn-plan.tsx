import type { ReactNode } from 'react';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { Court } from '../../server/lawn/court.ts';
import { LawnGround, planBox } from './lawn-ground.tsx';
import style from './plan.module.css';
import { type PlanBall, PlanBalls } from './plan-balls.tsx';
import { PlanLine } from './plan-line.tsx';

type Props = {
  readonly court: Court;
  /** What the plan shows, in words. */
  readonly label: string;
  readonly line?:
    | { readonly axis: 'x' | 'y'; readonly at: number; readonly nextHoopSide: 1 | -1 }
    | null
    | undefined;
  readonly balls?: readonly PlanBall[];
  readonly chosen?: BallColour | null;
  /** More to draw, between the ground and the balls, in metres with y down. */
  readonly children?: ReactNode;
};

/** The lawn from above, to scale, north at the top. */
export const LawnPlan = ({ court, label, line, balls = [], chosen, children }: Props) => (
  <svg className={style.plan} viewBox={planBox(court)} role="img" aria-label={label}>
    <LawnGround court={court} />
    {line && <PlanLine court={court} line={line} />}
    {children}
    <PlanBalls court={court} balls={balls} chosen={chosen} />
  </svg>
);
