import type { BallCall } from '../contract/reading.ts';
import type { LawnRecord, SightingRecord } from '../contract/record.ts';
import type { Settings } from '../contract/settings.ts';
import { ballMark } from './parts/ball-mark.ts';
import { closeUp, fitsCloseUp } from './parts/close-up.ts';
import { LOOK } from './parts/look.ts';
import { headingRow } from './parts/rows.ts';
import { type Block, clipped, paragraph, text } from './parts/text.ts';
import { gap, MARGIN, type Row, TEXT_WIDTH } from './sheet/pages.ts';
import { line, PT_PER_MM, type Shape } from './sheet/shapes.ts';
import { ballName, lieWords, measuredWords, verdictWords } from './words.ts';

/** The close-up is drawn at one sixth of true size. */
const CLOSE_UP = { reduction: 6, width: 236 } as const;
/** pt for each metre at that reduction. */
const CLOSE_UP_SCALE = (1000 * PT_PER_MM) / CLOSE_UP.reduction;
/** Width of the words beside it. */
const WORDS = TEXT_WIDTH - CLOSE_UP.width - 44;
/** From the top of a row with a close-up to its ground, and its least height, pt. */
const GROUND = 58;
const CLOSE_ROW = 84;
const FAR_ROW = 42;

type Called = LawnRecord | SightingRecord;

/** The calls of a record. */
export const callsOf = (record: Called): readonly BallCall[] =>
  record.kind === 'lawn' ? (record.call?.balls ?? []) : record.balls;

const verdictOf = (record: Called, { colour }: BallCall): string => {
  const verdict =
    record.kind === 'lawn' ? record.verdict?.balls.find((ball) => ball.colour === colour) : undefined;
  return verdict ? verdictWords(verdict) : '';
};

const settled = ({ lies, settle }: BallCall): string =>
  lies === 'tooClose' && settle?.[0] ? `What would settle it: ${settle[0].message}` : '';

const words = (record: Called, call: BallCall, settings: Settings, width: number, y: number): Block => {
  const x = MARGIN + 38;
  const title = `${ballName(call.colour)}: ${lieWords(call)}`;
  const measured = paragraph(x, y + 20, width, `${measuredWords(call, settings.units)}.`, { size: 9.5 });
  const reason = [verdictOf(record, call), settled(call)].filter(Boolean).join(' ');
  const why = reason
    ? paragraph(x, measured.bottom + 2, width, reason, { size: 8.5, colour: LOOK.soft })
    : { shapes: [], bottom: measured.bottom };
  const heading = clipped(x, y + 14, width, title, { size: 12.5, weight: 700 });
  return { shapes: [heading, ...measured.shapes, ...why.shapes], bottom: why.bottom };
};

const ruled = (y: number): Shape =>
  line(MARGIN, y, MARGIN + TEXT_WIDTH, y, { colour: LOOK.rule, width: 0.5 });

/** Disc and words of a ball over a rule; the row is as high as they need, and `least` pt at least. */
const ballRow = (record: Called, call: BallCall, settings: Settings, width: number, least: number): Row => {
  const height = Math.max(words(record, call, settings, width, 0).bottom + 10, least);
  return {
    height,
    draw: (y) => [
      ...ballMark(call.colour, [MARGIN + 15, y + 20], 12, settings.letters),
      ...words(record, call, settings, width, y).shapes,
      ruled(y + height - 3),
    ],
  };
};

const closeRow = (record: Called, call: BallCall, settings: Settings): Row => {
  const x = MARGIN + TEXT_WIDTH - CLOSE_UP.width;
  const { height, draw } = ballRow(record, call, settings, WORDS, CLOSE_ROW);
  return {
    height,
    draw: (y) => [
      ...draw(y),
      ...closeUp(call, { x, width: CLOSE_UP.width, scale: CLOSE_UP_SCALE, ground: y + GROUND }),
    ],
  };
};

const farRow = (record: Called, call: BallCall, settings: Settings): Row =>
  ballRow(record, call, settings, TEXT_WIDTH - 40, FAR_ROW);

const LEGEND = `Side views at 1 : ${CLOSE_UP.reduction}, the next hoop to the right. The band holds the ball’s nearest point 19 times in 20; hatched: open.`;

const headRow = (legend: string): Row => {
  const { height, draw } = headingRow('Ball by ball');
  const setting = { size: 8, colour: LOOK.soft, align: 'right' } as const;
  return { height, draw: (y) => [...draw(y), text(MARGIN + TEXT_WIDTH, y + 15, legend, setting)] };
};

/** One row for each ball called: beside the words the close-up, where the ball lies near enough to the line to be shown at its scale. */
export const callRows = (record: Called, settings: Settings): Row[] => {
  const calls = callsOf(record);
  if (calls.length === 0) return [];
  const near = calls.filter((call) => fitsCloseUp(call, { width: CLOSE_UP.width, scale: CLOSE_UP_SCALE }));
  const far = calls.filter((call) => !near.includes(call));
  return [
    headRow(near.length > 0 ? LEGEND : ''),
    gap(2),
    ...near.map((call) => closeRow(record, call, settings)),
    ...far.map((call) => farRow(record, call, settings)),
  ];
};
