import { useRef, useState } from 'react';
import { distance } from '../../server/contract/words/lengths.ts';
import type { Placement, Placements } from '../../server/games/events.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { Court } from '../../server/lawn/court.ts';
import { useSize } from '../photo/use-size.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { LawnGround, PLAN_MARGIN, planBox } from '../plan/lawn-ground.tsx';
import { spreadDiscs } from '../plan/spread-discs.ts';
import { useSettings } from '../settings/use-settings.ts';
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

/** (x, y) held within the plan. */
const inside = (court: Court, x: number, y: number): At => ({
  x: Math.min(court.width + PLAN_MARGIN, Math.max(-PLAN_MARGIN, x)),
  y: Math.min(court.length + PLAN_MARGIN, Math.max(-PLAN_MARGIN, y)),
});

/** Radius of a ball's disc on this plan, CSS px. */
const DISC_PX = 14;
/** A finger may tremble this much, CSS px, and it is still a tap. */
const TREMBLE = 4;

type At = { readonly x: number; readonly y: number };

type HandleProps = {
  readonly court: Court;
  readonly ball: BallColour;
  readonly at: At;
  /** Where its disc is drawn: beside `at` when another disc would cover it. */
  readonly drawn: At;
  readonly onLawn: boolean;
  /** CSS px a metre. */
  readonly k: number;
  readonly onPlace: (place: Placement) => void;
};

/** Pointer handlers that drag a ball from where its disc is drawn; `held` is where it is meanwhile. */
const useGrip = ({ court, drawn, k, onPlace }: HandleProps) => {
  const grip = useRef<{ px: number; py: number; from: At } | null>(null);
  const [held, setHeld] = useState<At | null>(null);
  const under = (event: React.PointerEvent) => {
    const { px, py, from } = grip.current!;
    return inside(court, from.x + (event.clientX - px) / k, from.y - (event.clientY - py) / k);
  };
  const end = (event: React.PointerEvent, keep: boolean) => {
    if (grip.current && keep && held) {
      const { x, y } = under(event);
      onPlace(byHand(x, y));
    }
    grip.current = null;
    setHeld(null);
  };
  const handlers = {
    onPointerDown: (event: React.PointerEvent) => {
      event.currentTarget.setPointerCapture(event.pointerId);
      grip.current = { px: event.clientX, py: event.clientY, from: drawn };
    },
    onPointerMove: (event: React.PointerEvent) => {
      const { px, py } = grip.current ?? { px: event.clientX, py: event.clientY };
      const far = Math.hypot(event.clientX - px, event.clientY - py) >= TREMBLE;
      if (grip.current && (held || far)) setHeld(under(event));
    },
    onPointerUp: (event: React.PointerEvent) => end(event, true),
    onPointerCancel: (event: React.PointerEvent) => end(event, false),
  };
  return { held, handlers };
};

const Handle = (props: HandleProps) => {
  const { court, ball, at, drawn, onLawn, k, onPlace } = props;
  const { held, handlers } = useGrip(props);
  const { units } = useSettings();
  const shown = held ?? drawn;
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
          ? `${ballName(ball)}, ${distance(at.x, units)} from the west, ${distance(at.y, units)} from the south`
          : `${ballName(ball)}, not on the lawn yet`
      }
      aria-description="Arrow keys move it by ten centimetres, with Shift by a metre, with Alt by a centimetre."
      {...handlers}
      onKeyDown={(event) => {
        const arrow = ARROWS[event.key];
        if (!arrow) return;
        event.preventDefault();
        const step = event.altKey ? STEP.alt : event.shiftKey ? STEP.shift : STEP.plain;
        const to = inside(court, at.x + arrow[0] * step, at.y + arrow[1] * step);
        onPlace(byHand(to.x, to.y));
      }}
    >
      <BallDisc colour={ball} size={2 * DISC_PX} />
    </button>
  );
};

/** Where each ball is, and where its disc is drawn so that every one can be taken hold of. */
const layOut = (court: Court, balls: readonly BallColour[], now: Placements, k: number) => {
  const off = balls.filter((ball) => !now[ball]);
  const places = balls.map((ball): At => now[ball] ?? waitingAt(court, off.indexOf(ball)));
  const drawn = spreadDiscs(places, DISC_PX / k);
  return balls.map((ball, i) => ({ ball, at: places[i]!, drawn: drawn[i]! }));
};

/** The plan with balls that can be dragged, or moved with the arrow keys. */
export const DragPlan = ({ court, balls, before, now, onPlace }: Props) => {
  const frame = useRef<HTMLDivElement>(null);
  const { width } = useSize(frame);
  const k = width / (court.width + 2 * PLAN_MARGIN);
  const laid = width > 0 ? layOut(court, balls, now, k) : [];
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would not describe a plan with balls on it
    <div ref={frame} className={style.plan} role="group" aria-label="Plan of the lawn with the balls">
      <svg viewBox={planBox(court)} aria-hidden="true">
        <LawnGround court={court} />
        <BallPaths court={court} before={before} now={now} />
        {laid.map(({ ball, at, drawn }) => (
          <path
            key={ball}
            d={`M${at.x} ${court.length - at.y}L${drawn.x} ${court.length - drawn.y}`}
            stroke="var(--turf-ink)"
            strokeWidth=".09"
          />
        ))}
      </svg>
      {laid.map(({ ball, at, drawn }) => (
        <Handle
          key={ball}
          court={court}
          ball={ball}
          at={at}
          drawn={drawn}
          onLawn={now[ball] !== undefined}
          k={k}
          onPlace={(to) => onPlace(ball, to)}
        />
      ))}
    </div>
  );
};
