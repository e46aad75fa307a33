import type { Court } from '../../server/lawn/court.ts';
import { down } from '../plan/lawn-ground.tsx';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import type { CourtPlace } from './court-places.ts';

/** Displacements are drawn this many times as large as they are. */
const ENLARGED = 8;

const Arrow = ({ court, place }: { court: Court; place: CourtPlace }) => {
  if (!place.off || place.within === true) return null;
  const from = { x: place.x + ENLARGED * place.off.dx, y: down(court, place.y + ENLARGED * place.off.dy) };
  const to = { x: place.x, y: down(court, place.y) };
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = Math.hypot(dx, dy) || 1;
  const [ux, uy] = [dx / length, dy / length];
  const head = `M${to.x - ux * 0.7 - uy * 0.35} ${to.y - uy * 0.7 + ux * 0.35}L${to.x} ${to.y}L${to.x - ux * 0.7 + uy * 0.35} ${to.y - uy * 0.7 - ux * 0.35}`;
  return (
    <g
      stroke="var(--turf-ink)"
      strokeWidth=".2"
      fill="none"
      strokeDasharray={place.within === null ? '.35 .3' : undefined}
    >
      <circle cx={from.x} cy={from.y} r=".4" fill="var(--chalk)" strokeDasharray="none" />
      <path d={`M${from.x} ${from.y}L${to.x} ${to.y}`} />
      <path d={head} strokeDasharray="none" />
    </g>
  );
};

const Unseen = ({ court, place }: { court: Court; place: CourtPlace }) =>
  place.off ? null : (
    <text
      x={place.x}
      y={down(court, place.y) - 0.5}
      fontSize="1.4"
      fontWeight="700"
      fill="var(--turf-ink)"
      textAnchor="middle"
    >
      ?
    </text>
  );

/** The court with what is off drawn where it stands, eight times as far off as it is, and an arrow to its place. */
export const CourtPlan = ({ court, places }: { court: Court; places: readonly CourtPlace[] }) => (
  <figure style={{ margin: 0 }}>
    <LawnPlan court={court} label="Plan of the court: what is off, with arrows to where it belongs">
      {places.map((place) => (
        <g key={place.name}>
          <Arrow court={court} place={place} />
          <Unseen court={court} place={place} />
        </g>
      ))}
    </LawnPlan>
    <figcaption className="soft">
      Arrows point to the proper place and are drawn eight times as long as they are.
    </figcaption>
  </figure>
);
