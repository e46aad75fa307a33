import { useId } from 'react';
import type { Stands } from '../../server/contract/stands.ts';
import type { Court } from '../../server/lawn/court.ts';
import { down, LawnGround } from '../plan/lawn-ground.tsx';
import { PlanLine } from '../plan/plan-line.tsx';
import checkStyle from './check.module.css';
import { outerEdges, type Settling, settles, squareOf } from './settled-places.ts';
import standStyle from './stand.module.css';

type Places = Stands['cells'];

/** The squares of these places as one area, and its outline: metres, y down. */
const areaPaths = (court: Court, places: Places, step: number) => ({
  area: places
    .map((place) => {
      const { west, north } = squareOf(place, step);
      return `M${west} ${down(court, north)}h${step}v${step}h${-step}z`;
    })
    .join(''),
  edge: outerEdges(places, step)
    .map(([x1, y1, x2, y2]) => `M${x1} ${down(court, y1)}L${x2} ${down(court, y2)}`)
    .join(''),
});

/** Solid edge and filled where half a ball is settled; dotted edge and hatched where only a whole one is. */
const Area = ({ kind, court, places, step, hatch }: AreaProps) => {
  if (places.length === 0) return null;
  const { area, edge } = areaPaths(court, places, step);
  const firm = kind === 'half';
  return (
    <g data-settles={kind}>
      <path d={area} fill={firm ? 'var(--chalk)' : `url(#${hatch})`} opacity={firm ? 0.82 : 0.75} />
      <path
        d={edge}
        fill="none"
        stroke={firm ? 'var(--deep)' : 'var(--turf-ink)'}
        strokeWidth={firm ? 0.3 : 0.22}
        strokeLinecap="round"
        strokeDasharray={firm ? undefined : '.05 .62'}
      />
    </g>
  );
};
type AreaProps = {
  readonly kind: Exclude<Settling, 'less'>;
  readonly court: Court;
  readonly places: Places;
  readonly step: number;
  readonly hatch: string;
};

/** The best place: a phone in a ring. */
const Best = ({ x, y }: { x: number; y: number }) => (
  <g transform={`translate(${x} ${y})`}>
    <circle r="2" fill="var(--deep)" stroke="var(--chalk)" strokeWidth=".35" />
    <rect x="-.7" y="-1.15" width="1.4" height="2.3" rx=".25" fill="var(--chalk)" />
    <circle r=".38" fill="var(--deep)" />
  </g>
);

const Key = () => (
  <figcaption className={checkStyle.key}>
    <span>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <rect x="2" y="2" width="20" height="20" fill="var(--chalk)" stroke="var(--ink)" strokeWidth="2.5" />
      </svg>
      settled from half a ball on
    </span>
    <span>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d="M2 14L14 2M2 22L22 2M10 22L22 10" stroke="var(--ink-soft)" strokeWidth="2.5" />
        <rect
          x="2"
          y="2"
          width="20"
          height="20"
          fill="none"
          stroke="var(--ink)"
          strokeWidth="2.5"
          strokeDasharray="1 4"
          strokeLinecap="round"
        />
      </svg>
      only from a whole ball on
    </span>
    <span>North is up.</span>
  </figcaption>
);

/** The lawn and its surroundings with the places from which a call is settled, and the best of them. */
export const StandPlan = ({ court, stands, certainty }: StandPlanProps) => {
  const hatch = useId();
  const { cells, step, best, line } = stands;
  const squares = cells.map((cell) => squareOf(cell, step));
  const west = Math.min(-step, ...squares.map((square) => square.west));
  const east = Math.max(court.width + step, ...squares.map((square) => square.east));
  const south = Math.min(-step, ...squares.map((square) => square.south));
  const north = Math.max(court.length + step, ...squares.map((square) => square.north));
  const of = (kind: Settling) => cells.filter(({ sd }) => settles(sd, certainty) === kind);
  return (
    <figure className={standStyle.standPlan}>
      <svg
        viewBox={`${west} ${down(court, north)} ${east - west} ${north - south}`}
        role="img"
        aria-label="Plan of the lawn and the places around it from which the call can be settled"
      >
        <defs>
          <pattern
            id={hatch}
            width="1.1"
            height="1.1"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <rect width=".32" height="1.1" fill="var(--chalk)" />
          </pattern>
        </defs>
        <rect x={west} y={down(court, north)} width={east - west} height={north - south} fill="var(--turf)" />
        <Area kind="whole" court={court} places={of('whole')} step={step} hatch={hatch} />
        <Area kind="half" court={court} places={of('half')} step={step} hatch={hatch} />
        <LawnGround court={court} />
        <PlanLine court={court} line={line} />
        <Best x={best.x} y={down(court, best.y)} />
      </svg>
      <Key />
    </figure>
  );
};
type StandPlanProps = { readonly court: Court; readonly stands: Stands; readonly certainty: number };
