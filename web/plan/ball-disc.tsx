import type { BallColour } from '../../server/lawn/colours.ts';
import { useSettings } from '../settings/use-settings.ts';
import { BALL_PAINT } from './ball-paint.ts';

type Props = {
  readonly colour: BallColour;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** A ball that is not called or only proposed is drawn faint. */
  readonly faint?: boolean | undefined;
};

/** A ball in an SVG: its paint, its letter, and a dark and a light ring so that white on white and black on green both show. */
export const BallMark = ({ colour, x, y, radius, faint }: Props) => {
  const { letters } = useSettings();
  const { fill, letter } = BALL_PAINT[colour];
  return (
    <g opacity={faint ? 0.55 : 1}>
      <circle cx={x} cy={y} r={radius * 1.12} fill="#fbfaf4" />
      <circle cx={x} cy={y} r={radius} fill={fill} stroke="#101914" strokeWidth={radius * 0.09} />
      <text
        x={x}
        y={y}
        fill={letter}
        fontSize={radius * 1.3}
        fontWeight="700"
        textAnchor="middle"
        dominantBaseline="central"
        style={{ pointerEvents: 'none' }}
      >
        {letters[colour]}
      </text>
    </g>
  );
};

/** The same for use in text and buttons: a small square picture. */
export const BallDisc = ({ colour, size = 32 }: { colour: BallColour; size?: number }) => (
  <svg
    viewBox="-10 -10 20 20"
    width={size}
    height={size}
    aria-hidden="true"
    style={{ flex: 'none', display: 'block' }}
  >
    <BallMark colour={colour} x={0} y={0} radius={8.4} />
  </svg>
);
