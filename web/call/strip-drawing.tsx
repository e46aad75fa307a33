import type { BallCall } from '../../server/contract/reading.ts';
import style from './close-up.module.css';
import { StripBall } from './strip-ball.tsx';
import { BALL_MM, layOutStrip, rulerMarks, type StripLayout } from './strip-layout.ts';

/** Room above the ball for the dimension, and below the grass for the ruler, px. */
const HEAD = 66;
const FOOT = 46;
/** The drawing grows no taller than this, px: on a wide screen the strip shows more of the lawn instead. */
const TALLEST = 210;

type Scale = {
  readonly x: (mm: number) => number;
  readonly k: number;
  readonly ground: number;
  readonly width: number;
};

const widened = (layout: StripLayout, width: number): StripLayout => {
  const k = Math.min(width / (layout.to - layout.from), (TALLEST - 10) / BALL_MM);
  const spare = width / k - (layout.to - layout.from);
  return { ...layout, from: layout.from - spare / 2, to: layout.to + spare / 2 };
};

/** Blades along the top of the grass: the same each time, denser than regular. */
const blades = (scale: Scale): string => {
  const parts: string[] = [];
  for (let x = 2, i = 0; x < scale.width; x += 5 + ((i * 7) % 4), i++) {
    const height = 4 + ((i * 5) % 6);
    parts.push(`M${x} ${scale.ground + 1}l${((i * 3) % 5) - 2} ${-height}`);
  }
  return parts.join('');
};

const Ruler = ({ scale, layout }: { scale: Scale; layout: StripLayout }) => {
  const top = scale.ground + 12;
  const inCut = (mm: number) => layout.cut !== null && (layout.rear >= 0 ? mm > 12 : mm < -12);
  const marks = rulerMarks(layout.from, layout.to).filter((mm) => !inCut(mm));
  return (
    <g className={style.ruler}>
      <path d={marks.map((mm) => `M${scale.x(mm)} ${top}v${mm % 50 === 0 ? 9 : 5}`).join('')} />
      {marks
        .filter((mm) => mm % 50 === 0 && scale.x(mm) > 14 && scale.x(mm) < scale.width - 14)
        .map((mm) => (
          <text key={mm} x={scale.x(mm)} y={top + 24}>
            {mm === 0 ? '0 mm' : Math.abs(mm)}
          </text>
        ))}
    </g>
  );
};

const Band = ({ scale, layout, certain }: { scale: Scale; layout: StripLayout; certain: boolean }) => {
  const left = scale.x(layout.rear - layout.half);
  const width = Math.max(1.5, 2 * layout.half * scale.k);
  const top = HEAD - 22;
  const height = scale.ground - top;
  return (
    <g className={style.band} data-certain={certain || undefined}>
      <rect
        x={left}
        y={top}
        width={width}
        height={height}
        fill={certain ? 'var(--band)' : 'url(#undecided)'}
      />
      <path d={`M${left} ${top}v${height}M${left + width} ${top}v${height}`} />
      <path className={style.rear} d={`M${scale.x(layout.rear)} ${top - 6}V${scale.ground}`} />
    </g>
  );
};

/** The measured distance between line and nearest point, with its arrows; the figure stands beside when there is no room between. */
const Dimension = ({ scale, layout, text }: { scale: Scale; layout: StripLayout; text: string }) => {
  const y = HEAD - 28;
  const [a, b] = [Math.min(0, layout.rear), Math.max(0, layout.rear)].map(scale.x) as [number, number];
  const middle = Math.min(scale.width - 60, Math.max(60, (a + b) / 2));
  const arrow =
    b - a > 18
      ? `M${a} ${y}H${b}M${a + 7} ${y - 4}L${a} ${y}l7 4M${b - 7} ${y - 4}L${b} ${y}l-7 4`
      : `M${a - 16} ${y}H${a}m-7-4l7 4l-7 4M${b + 16} ${y}H${b}m7-4l-7 4l7 4`;
  return (
    <g className={style.dimension}>
      <path d={arrow} />
      <text x={middle} y={y - 8}>
        {text}
      </text>
    </g>
  );
};

const Cut = ({ scale, at }: { scale: Scale; at: number }) => {
  const x = scale.x(at);
  const top = scale.ground - 16;
  const zigzag = (dx: number) => `M${x + dx} ${top}l6 9l-8 8l8 9l-6 9`;
  return (
    <g>
      <path d={`${zigzag(-5)}L${x + 5} ${top + 35}l6-9l-8-9l8-8l-6-9Z`} fill="var(--strip)" />
      <path className={style.cut} d={zigzag(-5) + zigzag(5)} />
    </g>
  );
};

const figure = (beyond: number): string => {
  const mm = Math.round(Math.abs(beyond) * 1000);
  return mm < 1000 ? `${mm} mm` : `${Math.abs(beyond).toFixed(2)} m`;
};

type Props = {
  readonly call: BallCall;
  readonly width: number;
  readonly next: string;
  readonly label: string;
};

/** The drawing of the close-up at a width in px. */
export const StripDrawing = ({ call, width, next, label }: Props) => {
  const layout = widened(layOutStrip(call.beyond, call.sd), width);
  const k = width / (layout.to - layout.from);
  const ground = HEAD + BALL_MM * k;
  const scale: Scale = { k, width, ground, x: (mm) => (mm - layout.from) * k };
  const line = scale.x(0);
  const radius = (BALL_MM / 2) * k;
  const height = ground + FOOT;
  return (
    <svg viewBox={`0 0 ${width} ${height}`} width={width} height={height} role="img" aria-label={label}>
      <defs>
        <pattern
          id="undecided"
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path d="M0 0V7" stroke="var(--band-edge)" strokeWidth="1.4" />
        </pattern>
      </defs>
      <rect className={style.past} x={line} y={0} width={Math.max(0, width - line)} height={ground} />
      <text className={style.side} x={width - 8} y={16} textAnchor="end">
        to {next} →
      </text>
      <rect className={style.grass} x={0} y={ground} width={width} height={FOOT} />
      <path className={style.line} d={`M${line} ${HEAD - 34}V${ground + 10}`} />
      <StripBall
        colour={call.colour}
        x={scale.x(layout.rear + BALL_MM / 2)}
        y={ground - radius}
        radius={radius}
      />
      <Band scale={scale} layout={layout} certain={call.lies !== 'tooClose'} />
      <path className={style.blades} d={blades(scale)} />
      {layout.cut !== null && <Cut scale={scale} at={layout.cut} />}
      <Dimension scale={scale} layout={layout} text={figure(call.beyond)} />
      <Ruler scale={scale} layout={layout} />
    </svg>
  );
};
