import type { Court } from '../../server/lawn/court.ts';
import { PENALTY_SIDES, penaltyOutline } from '../../server/lawn/penalty-area.ts';
import { metres } from '../../server/units/numbers.ts';
import { down } from '../plan/lawn-ground.tsx';

/** The two half circles from which a directed ball is played, true to scale. */
export const PenaltyAreas = ({ court, radius }: { court: Court; radius: number }) => (
  <g fill="var(--chalk)" fillOpacity=".3" stroke="var(--chalk)" strokeWidth=".1">
    {PENALTY_SIDES.map((side) => (
      <path
        key={side}
        d={`M${penaltyOutline(court, side, metres(radius))
          .map(({ x, y }) => `${x} ${down(court, y)}`)
          .join('L')}Z`}
      />
    ))}
  </g>
);
