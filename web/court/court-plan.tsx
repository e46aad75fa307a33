import type { Court } from '../../server/lawn/court.ts';
import { down } from '../plan/lawn-ground.tsx';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import style from './check.module.css';
import { CourtKey } from './court-key.tsx';
import { type CourtPlace, sizeOf, standingOf } from './court-places.ts';
import { arrowHead, enlargement, labelSpot } from './plan-arrows.ts';

type Drawn = { readonly court: Court; readonly place: CourtPlace; readonly times: number };

const INK = 'var(--turf-ink)';

/** What stands where it should: a solid mark on its place. */
const InPlace = ({ court, place }: Omit<Drawn, 'times'>) => (
  <circle cx={place.x} cy={down(court, place.y)} r=".42" fill="var(--chalk)" stroke={INK} strokeWidth=".18" />
);

/** An arrow from where a thing stands to where it belongs: solid when it is off for certain, dotted when it is too close to say. */
const Arrow = ({ court, place, times }: Drawn) => {
  const off = place.off!;
  const sure = place.within === false;
  const to = { x: place.x, y: down(court, place.y) };
  const from = { x: to.x + times * off.dx, y: down(court, place.y + times * off.dy) };
  const label = labelSpot(court, place);
  return (
    <g stroke={INK} fill="none" strokeWidth={sure ? 0.28 : 0.2} strokeLinecap="round">
      <circle cx={to.x} cy={to.y} r=".5" strokeDasharray={sure ? undefined : '.02 .4'} />
      <path d={`M${from.x} ${from.y}L${to.x} ${to.y}`} strokeDasharray={sure ? undefined : '.02 .45'} />
      <path d={arrowHead(from, to)} />
      <circle cx={from.x} cy={from.y} r=".4" fill={sure ? INK : 'var(--turf)'} />
      <text
        className={style.planLabel}
        x={label.x}
        y={label.y}
        textAnchor={label.anchor}
        stroke="none"
        fill={INK}
      >
        {Math.round(sizeOf(off) * 1000)} mm{sure ? '' : '?'}
      </text>
    </g>
  );
};

const Unseen = ({ court, place }: Omit<Drawn, 'times'>) => {
  const y = down(court, place.y);
  return (
    <g>
      <circle
        cx={place.x}
        cy={y}
        r=".75"
        fill="var(--turf)"
        stroke={INK}
        strokeWidth=".16"
        strokeDasharray=".3 .3"
      />
      <text
        x={place.x}
        y={y}
        fontSize="1.2"
        fontWeight="700"
        fill={INK}
        textAnchor="middle"
        dominantBaseline="central"
      >
        ?
      </text>
    </g>
  );
};

/** The court with what is off drawn where it stands, so many times as far off as it is, and an arrow to its place. */
export const CourtPlan = ({ court, places }: { court: Court; places: readonly CourtPlace[] }) => {
  const times = enlargement(places);
  const moved = places.filter((place) => ['off', 'unsure'].includes(standingOf(place)));
  return (
    <figure className={style.courtPlan}>
      <LawnPlan court={court} label="Plan of the court: what is off, with arrows to where it belongs">
        {places
          .filter((place) => standingOf(place) === 'fine')
          .map((place) => (
            <InPlace key={place.name} court={court} place={place} />
          ))}
        {places
          .filter((place) => standingOf(place) === 'unseen')
          .map((place) => (
            <Unseen key={place.name} court={court} place={place} />
          ))}
        {moved.map((place) => (
          <Arrow key={place.name} court={court} place={place} times={times} />
        ))}
      </LawnPlan>
      <CourtKey times={moved.length > 0 ? times : null} />
    </figure>
  );
};
