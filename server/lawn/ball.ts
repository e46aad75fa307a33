import { type Metres, metres } from '../units/numbers.ts';

/** Diameter of a ball: 3 5/8 in, 92 mm. From memory; a club checks it against its own rule book. */
export const BALL_DIAMETER: Metres = metres(0.092);
/** Radius of a ball, and so the height of its centre above the ground it stands on. */
export const BALL_RADIUS: Metres = metres(BALL_DIAMETER / 2);
