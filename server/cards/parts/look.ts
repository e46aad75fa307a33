import type { BallColour } from '../../lawn/colours.ts';

/** Colours by role. The balls' own colours are used for nothing else. */
export const LOOK = {
  paper: '#f6f3ea',
  card: '#fffdf7',
  ink: '#18352a',
  soft: '#55685e',
  rule: '#cfd0c2',
  chalk: '#fbfaf4',
  turf: '#7fae72',
  stripe: '#76a56a',
  turfInk: '#16311f',
  grass: '#d9e3cd',
  accent: '#b4541a',
  band: '#18352a',
} as const;

/** Paint of each ball, and the colour in which its letter reads on it. */
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
