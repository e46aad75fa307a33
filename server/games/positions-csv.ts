import { BALL_COLOURS } from '../lawn/colours.ts';
import type { Effective, GameLog } from './log.ts';
import type { Resting } from './state.ts';

const COLUMNS = [
  'entry',
  'at',
  'event',
  'played',
  'ball',
  'x_m',
  'y_m',
  'sd_x_m',
  'sd_y_m',
  'correlation',
  'origin',
] as const;

/** Decimals of lengths: a tenth of a millimetre. */
const LENGTH_DECIMALS = 4;

const rowsOf = (at: string, { number, event }: Effective, balls: Resting): string[] =>
  BALL_COLOURS.flatMap((ball) => {
    const place = balls[ball];
    if (place === undefined) return [];
    const lengths = [place.x, place.y, place.sdX, place.sdY].map((value) => value.toFixed(LENGTH_DECIMALS));
    const played = 'ball' in event ? event.ball : '';
    return [
      [number, at, event.type, played, ball, ...lengths, place.correlation.toFixed(3), place.origin].join(
        ',',
      ),
    ];
  });

/**
 * Where every ball rested after each event in force that moved or measured one, as CSV (RFC 4180, lines ended by CR LF): metres from
 * corner 1, x east, y north. No cell needs quoting: all are numbers, instants or words of closed lists.
 */
export const positionsCsv = (log: GameLog): string => {
  const places = new Map(log.state.history.map(({ entry, balls }) => [entry, balls]));
  const at = new Map(log.entries.map((entry) => [entry.number, entry.at]));
  const rows = log.effective.flatMap((effective) => {
    const balls = places.get(effective.number);
    return balls ? rowsOf(at.get(effective.number) ?? '', effective, balls) : [];
  });
  return `${[COLUMNS.join(','), ...rows].join('\r\n')}\r\n`;
};
