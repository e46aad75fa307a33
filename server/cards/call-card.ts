import type { LawnRecord, SightingRecord } from '../contract/record.ts';
import { lineName, scoredName } from '../contract/words/places.ts';
import type { Court } from '../lawn/court.ts';
import type { HalfwayLine } from '../lawn/halfway-lines.ts';
import type { HoopPoint } from '../lawn/hoops.ts';
import { metres } from '../units/numbers.ts';
import { callRows } from './call-rows.ts';
import type { CardOptions } from './card-options.ts';
import { lawnPlan, type PlanBall, planSize, scaleBar } from './parts/lawn-plan.ts';
import { LOOK } from './parts/look.ts';
import { textRow } from './parts/rows.ts';
import { type Block, paragraph, stacked } from './parts/text.ts';
import { photoCrop } from './photo-crop.ts';
import { type Frame, gap, MARGIN, type Row, TEXT_WIDTH } from './sheet/pages.ts';
import { PT_PER_MM, type Shape } from './sheet/shapes.ts';
import { CAUTION, instantWords } from './words.ts';

type Called = LawnRecord | SightingRecord;

/** The plan is drawn at this reduction: a lawn of 28 yards is 73 mm wide. */
const PLAN_REDUCTION = 350;
const PLAN_SCALE = (1000 * PT_PER_MM) / PLAN_REDUCTION;
/** Most pt of paper for the plan's width; a larger lawn is drawn smaller. */
const PLAN_WIDTH = 268;
const COLUMN_GAP = 18;
const PHOTO_SHAPE = 1.42;

const courtOf = ({ marks }: Called): Court => ({
  width: metres(marks.lawn.width),
  length: metres(marks.lawn.length),
});

const lineOf = (record: Called): HalfwayLine | null =>
  ((record.kind === 'lawn' ? record.call?.line : record.line) as HalfwayLine | undefined) ?? null;

const ballsOf = (record: Called): readonly PlanBall[] => (record.kind === 'lawn' ? record.balls : []);

/** What stands at the head and the foot of the card. */
export const callFrame = (record: Called, { spot, game, settings }: CardOptions): Frame => {
  const scored = record.marks.hoopScored as HoopPoint | undefined;
  const title = scored === undefined ? 'Where the balls lie' : `The call after ${scoredName(scored)}`;
  const where = [settings.lawn.name, spot].filter(Boolean).join(', ');
  return {
    title,
    aside: [instantWords(record.createdAt), [where, game].filter(Boolean).join(' · ')],
    footer: CAUTION,
    label: `${title}. ${record.sentence}`,
  };
};

const tracedWords = ({ camera }: LawnRecord): string =>
  `Boundary lines followed: ${Object.entries(camera.traced)
    .map(([side, share]) => `${side} ${Math.round(share * 100)}\u00a0%`)
    .join(', ')}.`;

const percent = (share: number): string => `${Math.round(share * 1000) / 10}\u00a0%`;

/** What the answer rests on, in short sentences. */
const factsOf = (record: Called, { settings }: CardOptions): string[] => {
  const line = lineOf(record);
  const { certainty, lawn } = record.marks;
  return [
    ...(line ? [`The halfway line runs ${lineName(line, lawn)}.`] : []),
    `A call is firm from a certainty of ${percent(certainty)} on; below that it is too close to call.`,
    ...(record.kind === 'lawn'
      ? [`The camera stood ${record.camera.position[2].toFixed(1)} m above the lawn.`, tracedWords(record)]
      : []),
    `Unevenness of the lawn allowed for: ${(lawn.unevenness * 1000).toFixed(0)} mm.`,
    ...(record.kind === 'lawn' && record.verdict ? [`Rules: edition ${settings.edition}.`] : []),
    ...(record.revision > 1 ? [`Corrected by hand; revision ${record.revision}.`] : []),
    ...record.warnings.map(({ message }) => message),
  ];
};

const factBlock =
  (record: Called, options: CardOptions, x: number, width: number) =>
  (y: number): Block =>
    stacked(
      y,
      4,
      [...factsOf(record, options), ...(record.note ? [`Note: ${record.note}`] : [])].map(
        (fact) => (top: number) => paragraph(x, top, width, fact, { size: 9 }),
      ),
    );

const planShapes = (record: Called, options: CardOptions, y: number, scale: number): Shape[] => {
  const court = courtOf(record);
  const { letters, units } = options.settings;
  const content = { court, balls: ballsOf(record), line: lineOf(record), letters };
  const bar = units === 'metric' ? ([5, '5 m'] as const) : ([6.4008, '7 yd'] as const);
  const below = y + planSize(court, scale).height + 11;
  const reduction = Math.round((1000 * PT_PER_MM) / scale);
  return [
    ...lawnPlan(content, { x: MARGIN, y, scale }),
    ...scaleBar(MARGIN + 2, below, scale, bar[0], `${bar[1]}; north is up; 1 : ${reduction} on A4`),
  ];
};

/** Plan on the left; photo, where there is one, and facts on the right. */
const overviewRow = async (record: Called, options: CardOptions): Promise<Row> => {
  const court = courtOf(record);
  const fitting = PLAN_WIDTH / planSize(court, 1).width;
  const scale = Math.min(PLAN_SCALE, fitting);
  const plan = planSize(court, scale);
  const x = MARGIN + plan.width + COLUMN_GAP;
  const width = TEXT_WIDTH - plan.width - COLUMN_GAP;
  const height = options.photo ? width / PHOTO_SHAPE : 0;
  const drawPhoto = options.photo
    ? await photoCrop(record, options.photo, { width, height }, options.settings.letters)
    : () => [];
  const facts = factBlock(record, options, x, width);
  const factsTop = height > 0 ? height + 10 : 0;
  return {
    height: Math.max(plan.height + 24, facts(factsTop).bottom + 6),
    draw: (y) => [
      ...planShapes(record, options, y, scale),
      ...drawPhoto(x, y),
      ...facts(y + factsTop).shapes,
    ],
  };
};

/** The rows of a call's card. */
export const callDocument = async (record: Called, options: CardOptions): Promise<Row[]> => [
  textRow(record.sentence, { size: 17, weight: 700, colour: LOOK.ink }, 8),
  await overviewRow(record, options),
  gap(4),
  ...callRows(record, options.settings),
];
