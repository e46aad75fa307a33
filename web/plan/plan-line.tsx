import type { Court } from '../../server/lawn/court.ts';
import { down } from './lawn-ground.tsx';

type Line = { readonly axis: 'x' | 'y'; readonly at: number; readonly nextHoopSide: 1 | -1 };

/** The part of the lawn past a halfway line, as a rectangle of the plan. */
const pastArea = (court: Court, { axis, at, nextHoopSide }: Line) => {
  if (axis === 'x')
    return nextHoopSide === 1
      ? { x: at, y: 0, width: court.width - at, height: court.length }
      : { x: 0, y: 0, width: at, height: court.length };
  return nextHoopSide === 1
    ? { x: 0, y: 0, width: court.width, height: court.length - at }
    : { x: 0, y: court.length - at, width: court.width, height: at };
};

/** The halfway line from mark to mark, and a light wash over the part of the lawn past it. */
export const PlanLine = ({ court, line }: { court: Court; line: Line }) => {
  const end = 0.7;
  const [x1, y1, x2, y2] =
    line.axis === 'x'
      ? [line.at, -end, line.at, court.length + end]
      : [-end, down(court, line.at), court.width + end, down(court, line.at)];
  return (
    <g>
      <rect {...pastArea(court, line)} fill="var(--chalk)" opacity=".16" />
      <path d={`M${x1} ${y1}L${x2} ${y2}`} stroke="var(--turf-ink)" strokeWidth=".3" opacity=".35" />
      <path d={`M${x1} ${y1}L${x2} ${y2}`} stroke="var(--chalk)" strokeWidth=".17" strokeDasharray=".8 .45" />
      {[
        [x1, y1],
        [x2, y2],
      ].map(([x, y]) => (
        <rect
          key={`${x} ${y}`}
          x={x! - 0.28}
          y={y! - 0.28}
          width=".56"
          height=".56"
          rx=".1"
          fill="var(--chalk)"
          stroke="var(--turf-ink)"
          strokeWidth=".08"
        />
      ))}
    </g>
  );
};
