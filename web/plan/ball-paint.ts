import type { BallColour } from '../../server/lawn/colours.ts';

/** Paint of each ball on plans, and the colour in which its letter reads on it. The balls' colours are used for nothing else. */
export const BALL_PAINT: Readonly<Record<BallColour, { readonly fill: string; readonly letter: string }>> = {
  blue: { fill: '#1d4fa8', letter: '#ffffff' },
  red: { fill: '#bb2020', letter: '#ffffff' },
  black: { fill: '#161616', letter: '#ffffff' },
  yellow: { fill: '#f2c81a', letter: '#111111' },
  green: { fill: '#1e7a35', letter: '#ffffff' },
  pink: { fill: '#f7a3bf', letter: '#111111' },
  brown: { fill: '#70431c', letter: '#ffffff' },
  white: { fill: '#fefefc', letter: '#111111' },
};
