import type { Court } from '../../server/lawn/court.ts';
import { acrossCourt } from '../../server/lawn/court.ts';
import { HOOP_NUMBERS, hoopPlace, pegPlace } from '../../server/lawn/hoops.ts';
import { MARKER_NAMES, markerPlace } from '../../server/lawn/named-points.ts';

/** Mown stripes across the lawn, one for every 3½ yards. */
const STRIPES = 8;

/** Metres of grass shown outside the boundary. */
export const PLAN_MARGIN = 1.4;

/** Plan metres down from the north boundary for `y` metres north of the south boundary. */
export const down = (court: Court, y: number): number => court.length - y;

/** The box of a plan of this court, for an SVG in metres with y down. */
export const planBox = (court: Court, margin = PLAN_MARGIN): string =>
  `${-margin} ${-margin} ${court.width + 2 * margin} ${court.length + 2 * margin}`;

/** The darker ones, counted from the west. */
const DARKER = [1, 3, 5, 7];

const Stripes = ({ court }: { court: Court }) => {
  const width = acrossCourt(court, 28 / STRIPES);
  return DARKER.map((i) => (
    <rect key={i} x={i * width} y={0} width={width} height={court.length} fill="var(--turf-stripe)" />
  ));
};

/** A hoop from above, larger than true so that it shows: two feet and the bar between, with its number. */
const PlanHoop = ({ court, hoop }: { court: Court; hoop: (typeof HOOP_NUMBERS)[number] }) => {
  const { x, y } = hoopPlace(court, hoop);
  const top = down(court, y);
  return (
    <g>
      <path d={`M${x - 0.45} ${top}h.9`} stroke="var(--chalk)" strokeWidth=".13" />
      <circle cx={x - 0.45} cy={top} r=".17" fill="var(--chalk)" />
      <circle cx={x + 0.45} cy={top} r=".17" fill="var(--chalk)" />
      <text x={x + 0.95} y={top} fontSize="1.15" fill="var(--turf-ink)" dominantBaseline="central">
        {hoop}
      </text>
    </g>
  );
};

/** Grass, boundary, hoops, peg and boundary marks of a court: what lies under everything on a plan. */
export const LawnGround = ({ court, bare = false }: { court: Court; bare?: boolean }) => {
  const peg = pegPlace(court);
  return (
    <g>
      <rect
        x={-PLAN_MARGIN}
        y={-PLAN_MARGIN}
        width={court.width + 2 * PLAN_MARGIN}
        height={court.length + 2 * PLAN_MARGIN}
        fill="var(--turf)"
      />
      <Stripes court={court} />
      <rect width={court.width} height={court.length} fill="none" stroke="var(--chalk)" strokeWidth=".16" />
      {!bare && (
        <>
          {MARKER_NAMES.map((name) => {
            const { x, y } = markerPlace(court, name);
            const out = 0.35;
            const cx = name === 'markerW' ? -out : name === 'markerE' ? court.width + out : x;
            const cy = name.startsWith('markerS')
              ? court.length + out
              : name.startsWith('markerN')
                ? -out
                : down(court, y);
            return <circle key={name} cx={cx} cy={cy} r=".16" fill="var(--chalk)" />;
          })}
          {HOOP_NUMBERS.map((hoop) => (
            <PlanHoop key={hoop} court={court} hoop={hoop} />
          ))}
          <circle
            cx={peg.x}
            cy={down(court, peg.y)}
            r=".2"
            fill="var(--chalk)"
            stroke="var(--turf-ink)"
            strokeWidth=".06"
          />
        </>
      )}
    </g>
  );
};
