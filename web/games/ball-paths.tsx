import { BALL_COLOURS, type BallColour } from '../../server/lawn/colours.ts';
import type { Court } from '../../server/lawn/court.ts';
import { down } from '../plan/lawn-ground.tsx';

/** Moves shorter than this are no path, metres. */
const NO_PATH = 0.05;

type Places = { readonly [ball in BallColour]?: { readonly x: number; readonly y: number } | undefined };

/** The way each ball has gone: from a small ring where it lay to where it is, straight, for the log knows no more. */
export const BallPaths = ({ court, before, now }: { court: Court; before: Places; now: Places }) => (
  <g fill="none" stroke="var(--turf-ink)" strokeWidth=".14">
    {BALL_COLOURS.map((colour) => {
      const from = before[colour];
      const to = now[colour];
      if (!from || !to || Math.hypot(to.x - from.x, to.y - from.y) < NO_PATH) return null;
      return (
        <g key={colour}>
          <circle cx={from.x} cy={down(court, from.y)} r=".3" />
          <path d={`M${from.x} ${down(court, from.y)}L${to.x} ${down(court, to.y)}`} />
        </g>
      );
    })}
  </g>
);
