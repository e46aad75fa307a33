import type { CheckRecord } from '../contract/record.ts';
import type { Settings, UnitSystem } from '../contract/settings.ts';
import { giveOrTake } from '../contract/words/chances.ts';
import { margin, wholeMillimetres } from '../contract/words/lengths.ts';
import { shortPointName } from '../contract/words/places.ts';
import { MARKER_NAMES, type MarkerName, namedPlace, type PointName } from '../lawn/named-points.ts';
import { METRES_PER_YARD, metres } from '../units/numbers.ts';
import type { LawnPoint } from '../units/points.ts';
import type { CardOptions } from './card-options.ts';
import { lawnPlan, onPlan, planSize } from './parts/lawn-plan.ts';
import { LOOK } from './parts/look.ts';
import { type Cell, type Column, headingRow, headRow, tableRow, textRow } from './parts/rows.ts';
import { paragraph, text } from './parts/text.ts';
import { type Frame, gap, MARGIN, type Row, TEXT_WIDTH } from './sheet/pages.ts';
import { line, type Shape } from './sheet/shapes.ts';
import { instantWords } from './words.ts';

const COLUMNS: readonly Column[] = [
  { title: 'Place', width: 140 },
  { title: 'Found', width: 148 },
  { title: 'What to do', width: 165 },
  { title: 'Give or take', width: 70, align: 'right' },
];

/** A place as the list shows it: its name, and how far it lies from where it belongs: metres, by the way it lies off. */
type Listed = {
  readonly point: PointName | null;
  readonly name: string;
  readonly offsets:
    | readonly { readonly by: number; readonly positive: string; readonly negative: string }[]
    | null;
  readonly sd: number | null;
  readonly within: boolean | null;
};

/** Markers go by the short names of the answer or by those of points. */
const markerPoint = (name: string): MarkerName | null =>
  MARKER_NAMES.find((marker) => marker === name || marker === `marker${name}`) ?? null;

const ALONG = { positive: 'east', negative: 'west' } as const;
const UP = { positive: 'north', negative: 'south' } as const;

/** "South marker at 10.5 yd", "Hoop 3", "Peg". */
const nameOf = (name: PointName): string => {
  const words = shortPointName(name).replace(/^the /, '');
  return words.charAt(0).toUpperCase() + words.slice(1);
};

const listed = (record: CheckRecord): Listed[] => [
  ...record.markers.map(({ name, along, sd, within }) => {
    const marker = markerPoint(name);
    const way = marker === 'markerW' || marker === 'markerE' ? UP : ALONG;
    return {
      point: marker,
      name: marker ? nameOf(marker) : name,
      offsets: along === null ? null : [{ by: along, ...way }],
      sd,
      within,
    };
  }),
  ...[...record.hoops, { ...record.peg, name: 'peg' }].map(({ name, dx, dy, sd, within }) => ({
    point: name as PointName,
    name: nameOf(name as PointName),
    offsets:
      dx === null || dy === null
        ? null
        : [
            { by: dx, ...ALONG },
            { by: dy, ...UP },
          ],
    sd,
    within,
  })),
];

/** The displacement as a vector, metres; null when the place was not seen. */
const offsetOf = ({ offsets }: Listed): { x: number; y: number } | null => {
  if (offsets === null) return null;
  const along = (positive: string) => offsets.find((offset) => offset.positive === positive)?.by ?? 0;
  return { x: along(ALONG.positive), y: along(UP.positive) };
};

/** Below this a displacement is not worth a word, metres. */
const NOTHING = 0.0005;

const directions = (place: Listed, units: UnitSystem, turned: boolean): string => {
  const parts = (place.offsets ?? [])
    .filter(({ by }) => Math.abs(by) >= NOTHING)
    .map(({ by, positive, negative }) => `${margin(by, units)} ${by > 0 === turned ? negative : positive}`);
  return parts.length > 0 ? parts.join(', ') : 'in its place';
};

const remedy = (place: Listed): Cell => {
  if (place.offsets === null) return { words: 'Look for it on the lawn', setting: { colour: LOOK.soft } };
  if (place.within === true) return 'Within the tolerance';
  const move = `Move ${directions(place, 'metric', true)}`;
  return place.within === false
    ? { words: move, setting: { weight: 700, colour: LOOK.accent } }
    : { words: 'Too close to say: measure it', setting: { weight: 600 } };
};

const rowOf = (place: Listed, units: UnitSystem): Row =>
  tableRow(COLUMNS, [
    { words: place.name, setting: { weight: 600 } },
    place.offsets === null ? 'not seen' : directions(place, units === 'imperial' ? 'metric' : units, false),
    remedy(place),
    place.sd === null ? '' : `${wholeMillimetres(giveOrTake(place.sd))} mm`,
  ]);

/** Arrows on the plan are so many times too long, or nobody would see them. */
const EXAGGERATION = 15;
const PLAN_SCALE = 7.9;

/** An arrow from where a thing was found to where it belongs, or a ring where it stands well enough. */
const arrow = (place: Listed, proper: LawnPoint, at: ReturnType<typeof onPlan>): Shape[] => {
  const [x, y] = at(proper.x, proper.y);
  const off = offsetOf(place);
  if (off === null)
    return [text(x, y + 4, '?', { size: 12, weight: 700, align: 'middle', colour: LOOK.turfInk })];
  if (place.within !== false)
    return [{ kind: 'ellipse', x, y, rx: 5, ry: 5, stroke: { colour: LOOK.turfInk, width: 0.9 } }];
  const [fx, fy] = at(proper.x + EXAGGERATION * off.x, proper.y + EXAGGERATION * off.y);
  const length = Math.hypot(x - fx, y - fy) || 1;
  const [ux, uy] = [(x - fx) / length, (y - fy) / length];
  const wing = (side: 1 | -1) => `L${x - 6 * ux - side * 3 * uy} ${y - 6 * uy + side * 3 * ux}`;
  return [
    line(fx, fy, x, y, { colour: LOOK.accent, width: 2 }),
    { kind: 'path', d: `M${x} ${y}${wing(1)}${wing(-1)}Z`, fill: LOOK.accent },
  ];
};

/** The plan of the lawn with what to move, and which way. */
const planRow = (record: CheckRecord, places: readonly Listed[], { letters }: Settings): Row => {
  const { width, length } = record.marks.lawn;
  const court = { width: metres(width), length: metres(length) };
  const size = planSize(court, PLAN_SCALE);
  return {
    height: size.height + 30,
    draw: (y) => {
      const frame = { x: MARGIN + (TEXT_WIDTH - size.width) / 2, y, scale: PLAN_SCALE };
      const at = onPlan(court, frame);
      return [
        ...lawnPlan({ court, balls: [], letters }, frame),
        ...places.flatMap((place) => (place.point ? arrow(place, namedPlace(court, place.point), at) : [])),
        ...paragraph(frame.x, y + size.height + 4, size.width, PLAN_LEGEND, { size: 8, colour: LOOK.soft })
          .shapes,
      ];
    },
  };
};

const PLAN_LEGEND = `Arrows show what is off and which way to move it, drawn ${EXAGGERATION} times too long; a ring is a place that is not certainly off, a question mark one that was not seen.`;

/** What stands at the head and the foot of the list. */
export const checkFrame = (record: CheckRecord, { settings, spot }: CardOptions): Frame => ({
  title: 'The setting of the court',
  aside: [instantWords(record.createdAt), [settings.lawn.name, spot].filter(Boolean).join(', ')],
  footer: 'Measured from one photograph. What is stated as too close to say needs a tape on the lawn.',
  label: `The setting of the court. ${record.sentence}`,
});

const yards = (value: number): string => (value / METRES_PER_YARD).toFixed(2).replace(/\.?0+$/, '');

/** The rows of the printable list of a court check. */
export const checkDocument = (record: CheckRecord, { settings }: CardOptions): Row[] => {
  const { width, length } = record.marks.lawn;
  const places = listed(record);
  const table = (title: string, some: readonly Listed[]): Row[] =>
    some.length === 0
      ? []
      : [headingRow(title), headRow(COLUMNS), ...some.map((place) => rowOf(place, settings.units)), gap(10)];
  const markers = places.slice(0, record.markers.length);
  return [
    textRow(record.sentence, { size: 17, weight: 700 }, 8),
    textRow(
      `Lawn of ${yards(width)} by ${yards(length)} yards (${width.toFixed(2)} by ${length.toFixed(2)} m); tolerance ${margin(record.tolerance, settings.units)}. Directions are those of the lawn: north is up on its plan.`,
      { colour: LOOK.soft },
      10,
    ),
    ...table('Marks on the boundary', markers),
    ...table('Hoops and peg', places.slice(markers.length)),
    planRow(record, places, settings),
    ...record.warnings.map(({ message }) => textRow(message, { size: 9, colour: LOOK.soft })),
  ];
};
