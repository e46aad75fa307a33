import type { BallColour } from '../../server/lawn/colours.ts';
import type { Court } from '../../server/lawn/court.ts';
import { BallMark } from './ball-disc.tsx';
import { down } from './lawn-ground.tsx';
import { region95 } from './region.ts';
import { spreadDiscs } from './spread-discs.ts';

/** Radius of a ball's disc on a plan, metres: large enough for its letter on a phone. */
export const DISC = 0.92;

/** A ball on a plan, metres. */
export type PlanBall = {
  readonly colour: BallColour;
  readonly x: number;
  readonly y: number;
  readonly sdX?: number;
  readonly sdY?: number;
  readonly correlation?: number;
  readonly faint?: boolean;
};

const Region = ({ court, ball }: { court: Court; ball: PlanBall }) => {
  if (!ball.sdX || !ball.sdY) return null;
  const { major, minor, angle } = region95(ball.sdX, ball.sdY, ball.correlation ?? 0);
  return (
    <ellipse
      rx={major}
      ry={minor}
      transform={`translate(${ball.x} ${down(court, ball.y)}) rotate(${-angle})`}
      fill="none"
      stroke="var(--turf-ink)"
      strokeWidth="1"
      vectorEffect="non-scaling-stroke"
    />
  );
};

/** Balls with their letters. Discs are drawn apart where they would cover each other, each tied to the spot where its ball rests. */
export const PlanBalls = ({
  court,
  balls,
  chosen,
}: {
  court: Court;
  balls: readonly PlanBall[];
  chosen?: BallColour | null | undefined;
}) => {
  const drawn = spreadDiscs(
    balls.map(({ x, y }) => ({ x, y: down(court, y) })),
    DISC,
  );
  return (
    <g>
      {balls.map((ball, i) => {
        const { x, y } = drawn[i]!;
        const apart = Math.hypot(x - ball.x, y - down(court, ball.y)) > 0.05;
        return (
          <g key={ball.colour}>
            <Region court={court} ball={ball} />
            {apart && (
              <>
                <path
                  d={`M${x} ${y}L${ball.x} ${down(court, ball.y)}`}
                  stroke="var(--turf-ink)"
                  strokeWidth=".09"
                />
                <circle cx={ball.x} cy={down(court, ball.y)} r=".14" fill="var(--turf-ink)" />
              </>
            )}
            {chosen === ball.colour && (
              <circle cx={x} cy={y} r={DISC * 1.45} fill="none" stroke="var(--turf-ink)" strokeWidth=".14" />
            )}
            <BallMark colour={ball.colour} x={x} y={y} radius={DISC} faint={ball.faint} />
          </g>
        );
      })}
    </g>
  );
};
