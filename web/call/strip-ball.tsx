import type { BallColour } from '../../server/lawn/colours.ts';
import { BALL_PAINT } from '../plan/ball-paint.ts';
import { useSettings } from '../settings/use-settings.ts';

type Props = { readonly colour: BallColour; readonly x: number; readonly y: number; readonly radius: number };

/** Width of the two rings that set the ball off from whatever is behind it, px. */
const RING = 1.5;

/** The ball of the close-up: its edge is where it is drawn to be, with a dark ring inside it and a light one inside that. */
export const StripBall = ({ colour, x, y, radius }: Props) => {
  const { letters } = useSettings();
  const { fill, letter } = BALL_PAINT[colour];
  return (
    <g>
      <circle cx={x} cy={y} r={radius} fill="#fbfaf4" />
      <circle cx={x} cy={y} r={radius - RING} fill="#101914" />
      <circle cx={x} cy={y} r={radius - 2 * RING} fill={fill} />
      <text
        x={x}
        y={y}
        fill={letter}
        fontSize={radius * 0.9}
        fontWeight="700"
        textAnchor="middle"
        dominantBaseline="central"
      >
        {letters[colour]}
      </text>
    </g>
  );
};
