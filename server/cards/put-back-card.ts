import type { UnitSystem } from '../contract/settings.ts';
import { giveOrTake } from '../contract/words/chances.ts';
import { distance, wholeMillimetres } from '../contract/words/lengths.ts';
import { shortPointName } from '../contract/words/places.ts';
import { type PutBackLine, putBackCard } from '../games/put-back.ts';
import { courtOf } from '../games/state.ts';
import { titleOf } from '../games/view-game.ts';
import type { Court } from '../lawn/court.ts';
import { namedPlace } from '../lawn/named-points.ts';
import { type GamePrint, planBalls, restingAt } from './game-prints.ts';
import { ballMark } from './parts/ball-mark.ts';
import { lawnPlan, onPlan, type PlanFrame, planSize } from './parts/lawn-plan.ts';
import { LOOK } from './parts/look.ts';
import { headingRow, textRow } from './parts/rows.ts';
import { clipped, text } from './parts/text.ts';
import { type Frame, gap, MARGIN, type Row, TEXT_WIDTH } from './sheet/pages.ts';
import { line, type Shape } from './sheet/shapes.ts';
import { ballName, instantWords } from './words.ts';

/** pt for each metre of the card's plan: a lawn of 35 yards takes less than half a page. */
const PLAN_SCALE = 9.6;

/** Both ways of telling a length, the club's own first: "7 yd 2 ft · 7.01 m". */
const bothWays = (metres: number, units: UnitSystem): string => {
  const exact = `${Math.abs(metres).toFixed(3)} m`;
  const yards = distance(metres, 'imperial');
  return units === 'imperial' ? `${yards} · ${exact}` : `${exact} · ${yards}`;
};

const spread = (sd: number): string => `± ${wholeMillimetres(giveOrTake(sd))} mm`;

const tapes = (line_: PutBackLine, units: UnitSystem): [what: string, length: string, spread: string][] => [
  ...line_.boundaries.map(({ side, distance: length, sd }): [string, string, string] => [
    length < 0 ? `outside the ${side} boundary` : `from the ${side} boundary`,
    bothWays(length, units),
    spread(sd),
  ]),
  ...line_.points.map(({ name, distance: length, sd }): [string, string, string] => [
    `from ${shortPointName(name)}`,
    bothWays(length, units),
    spread(sd),
  ]),
];

const ROW_LINE = 14;

const ballRow = (line_: PutBackLine, { settings }: GamePrint): Row => {
  const lines = tapes(line_, settings.units);
  const height = lines.length * ROW_LINE + 14;
  return {
    height,
    draw: (y) => [
      ...ballMark(line_.ball, [MARGIN + 15, y + 20], 12, settings.letters),
      text(MARGIN + 38, y + 24, ballName(line_.ball), { size: 13, weight: 700 }),
      ...lines.flatMap(([what, length, give], index) => {
        const baseline = y + 14 + index * ROW_LINE;
        return [
          clipped(MARGIN + 120, baseline, 165, what, { colour: LOOK.soft }),
          text(MARGIN + 290, baseline, length, { size: 11, weight: 600 }),
          text(MARGIN + TEXT_WIDTH, baseline, give, { size: 9, colour: LOOK.soft, align: 'right' }),
        ];
      }),
      line(MARGIN, y + height - 6, MARGIN + TEXT_WIDTH, y + height - 6, { colour: LOOK.rule, width: 0.5 }),
    ],
  };
};

/** Dashed lines on the plan from each ball to the points its tapes are held to. */
const tapeLines = (court: Court, frame: PlanFrame, card: readonly PutBackLine[]): Shape[] => {
  const at = onPlan(court, frame);
  return card.flatMap(({ place, points }) =>
    points.map(({ name }) => {
      const fixed = namedPlace(court, name);
      const [[x1, y1], [x2, y2]] = [at(place.x, place.y), at(fixed.x, fixed.y)];
      return line(x1, y1, x2, y2, { colour: LOOK.turfInk, width: 0.6, dash: [3, 2.4] });
    }),
  );
};

const planRow = (print: GamePrint, card: readonly PutBackLine[]): Row => {
  const court = courtOf(print.log.state.setup);
  const { width, height } = planSize(court, PLAN_SCALE);
  return {
    height: height + 10,
    draw: (y) => {
      const frame = { x: MARGIN + (TEXT_WIDTH - width) / 2, y, scale: PLAN_SCALE };
      const content = { court, letters: print.settings.letters };
      const ground = lawnPlan({ ...content, balls: [] }, frame);
      const balls = lawnPlan({ ...content, balls: planBalls(restingAt(print)) }, frame).slice(ground.length);
      return [...ground, ...tapeLines(court, frame, card), ...balls];
    },
  };
};

const momentWords = ({ log, entry }: GamePrint): string => {
  const at = log.entries[entry - 1]?.at;
  return `After entry ${entry} of the log${at ? `, ${instantWords(at)}` : ''}`;
};

/** What stands at the head and the foot of the card. */
export const putBackFrame = (print: GamePrint): Frame => ({
  title: 'Putting the balls back',
  aside: [titleOf(print.log.state), momentWords(print)],
  footer:
    'Distances on the ground from under the ball’s centre to the inner edge of the boundary, or to the middle of the hoop or peg; ± holds 19 times in 20.',
  label: `Where the balls of ${titleOf(print.log.state)} are put back. ${momentWords(print)}.`,
});

/** The rows of a card for putting balls back. */
export const putBackDocument = (print: GamePrint): Row[] => {
  const card = putBackCard(restingAt(print), courtOf(print.log.state.setup));
  if (card.length === 0)
    return [textRow('Of this moment the log does not know where any ball lay.', { size: 12 })];
  return [
    planRow(print, card),
    headingRow('Where each ball goes'),
    gap(4),
    ...card.map((line_) => ballRow(line_, print)),
  ];
};
