import { useRef, useState } from 'react';
import type { Placement, Placements } from '../../server/games/events.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { Court } from '../../server/lawn/court.ts';
import { useSize } from '../photo/use-size.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { LawnGround, PLAN_MARGIN, planBox } from '../plan/lawn-ground.tsx';
import { ballName } from '../words/balls.ts';
import { BallPaths } from './ball-paths.tsx';
import style from './drag-plan.module.css';
import { byHand } from './hand-placement.ts';

/** Metres an arrow moves a ball: alone, with Shift, with Alt. */
const STEP = { plain: 0.1, shift: 1, alt: 0.01 } as const;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

type Props = {
  readonly court: Court;
  readonly balls: readonly BallColour[];
  /** Where the balls lay before, and where they lie now; a ball without a place waits beside the lawn. */
  readonly before: Placements;
  readonly now: Placements;
  readonly onPlace: (ball: BallColour, place: Placement) => void;
};

/** Where balls that are not on the lawn wait: beside corner 4, where each is first played from. */
const waitingAt = (court: Court, i: number): { x: number; y: number } => ({
  x: court.width - 0.5 - i * 2.1,
  y: -0.7,
});

const clamp = (value: number, most: number): number =>
  Math.min(most + PLAN_MARGIN, Math.max(-PLAN_MARGIN, value));

type HandleProps = {
  readonly court: Court;
  readonly ball: BallColour;
  readonly at: { readonly x: number; readonly y: number };
  readonly onLawn: boolean;
  /** CSS px a metre. */
  readonly k: number;
  readonly onPlace: (place: Placement) => void;
};

const Handle = ({ court, ball, at, onLawn, k, onPlace }: HandleProps) => {
  const grip = useRef<{ px: number; py: number; x: number; y: number } | null>(null);
  const [held, setHeld] = useState<{ x: number; y: number } | null>(null);
  const place = (x: number, y: number) => ({ x: clamp(x, court.width), y: clamp(y, court.length) });
  const under = (event: React.PointerEvent) => {
    const { px, py, x, y } = grip.current!;
    return place(x + (event.clientX - px) / k, y - (event.clientY - py) / k);
  };
  const shown = held ?? at;
  const end = (event: React.PointerEvent, keep: boolean) => {
    if (!grip.current) return;
    const to = under(event);
    if (keep && held) onPlace(byHand(to.x, to.y));
    grip.current = null;
    setHeld(null);
  };
  return (
    <button
      type="button"
      className={style.handle}
      style={{
        transform: `translate(${(shown.x + PLAN_MARGIN) * k - 22}px, ${(court.length - shown.y + PLAN_MARGIN) * k - 22}px)`,
      }}
      data-plan-ball={ball}
      aria-label={
        onLawn
          ? `${ballName(ball)}, ${shown.x.toFixed(1)} m from the west, ${shown.y.toFixed(1)} m from the south`
          : `${ballName(ball)}, not on the lawn`
      }
      aria-description="Arrow keys move it by ten centimetres, with Shift by a metre, with Alt by a centimetre."
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        grip.current = { px: event.clientX, py: event.clientY, ...at };
      }}
      onPointerMove={(event) => grip.current && setHeld(under(event))}
      onPointerUp={(event) => end(event, true)}
      onPointerCancel={(event) => end(event, false)}
      onKeyDown={(event) => {
        const arrow = ARROWS[event.key];
        if (!arrow) return;
        event.preventDefault();
        const step = event.altKey ? STEP.alt : event.shiftKey ? STEP.shift : STEP.plain;
        const to = place(at.x + arrow[0] * step, at.y + arrow[1] * step);
        onPlace(byHand(to.x, to.y));
      }}
    >
      <BallDisc colour={ball} size={28} />
    </button>
  );
};

/** The plan with balls that can be dragged, or moved with the arrow keys. */
export const DragPlan = ({ court, balls, before, now, onPlace }: Props) => {
  const frame = useRef<HTMLDivElement>(null);
  const { width } = useSize(frame);
  const k = width / (court.width + 2 * PLAN_MARGIN);
  let waiting = 0;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would not describe a plan with balls on it
    <div ref={frame} className={style.plan} role="group" aria-label="Plan of the lawn with the balls">
      <svg viewBox={planBox(court)} aria-hidden="true">
        <LawnGround court={court} />
        <BallPaths court={court} before={before as never} after={now as never} />
      </svg>
      {width > 0 &&
        balls.map((ball) => {
          const place = now[ball];
          const at = place ?? waitingAt(court, waiting++);
          return (
            <Handle
              key={ball}
              court={court}
              ball={ball}
              at={at}
              onLawn={place !== undefined}
              k={k}
              onPlace={(to) => onPlace(ball, to)}
            />
          );
        })}
    </div>
  );
};
