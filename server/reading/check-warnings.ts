import type { CourtCheck } from '../contract/court-check.ts';
import type { Warning } from '../contract/reading.ts';
import { giveOrTake } from '../contract/words/chances.ts';
import type { TracedSide } from '../vision/types.ts';

/** A hoop that does not stand parallel to the short boundaries (radians, anticlockwise seen from above) or not upright (radians, towards the north). */
export type Turned = { readonly name: string; readonly turn: number; readonly sd: number };

type Checked = Pick<CourtCheck, 'markers' | 'hoops' | 'peg'>;

const UNTRACED = 0.25;

const spoken = (name: string): string => (name === 'peg' ? 'The peg' : `Hoop ${name.slice('hoop'.length)}`);

const compass = (north: boolean, value: number): string => {
  if (north) return value > 0 ? 'south' : 'north';
  return value > 0 ? 'west' : 'east';
};

/** Which way and how far a thing must be moved to stand right: "move it 180 mm south". */
export const howToMove = (dx: number, dy: number): string => {
  const parts = [
    [false, dx],
    [true, dy],
  ] as const;
  const moves = parts
    .filter(([, value]) => Math.abs(value) >= 0.001)
    .map(([north, value]) => `${Math.round(Math.abs(value) * 1000)} mm ${compass(north, value)}`);
  return moves.length ? `move it ${moves.join(' and ')}` : 'leave it';
};

const placeWarnings = (name: string, check: CourtCheck['peg']): Warning[] => {
  if (check.dx === null || check.dy === null)
    return [
      {
        code: 'not-seen',
        message: `${spoken(name)} was not seen near its place; mark it on the photo or look for it.`,
      },
    ];
  if (check.within !== false) return [];
  return [
    {
      code: 'out-of-place',
      message: `${spoken(name)} is out of its place: ${howToMove(check.dx, check.dy)}.`,
    },
  ];
};

const markerWarnings = ({ name, along, within }: CourtCheck['markers'][number]): Warning[] => {
  if (along === null)
    return [
      {
        code: 'marker-missing',
        message: `The marker ${name} is missing, or it was not seen just outside the line.`,
      },
    ];
  if (within !== false) return [];
  const northward = name === 'W' || name === 'E';
  const move = northward ? howToMove(0, along) : howToMove(along, 0);
  return [{ code: 'out-of-place', message: `The marker ${name} is out of its place: ${move}.` }];
};

const degrees = (angle: number): string => ((Math.abs(angle) * 180) / Math.PI).toFixed(1);

const turnWarnings = (turned: readonly Turned[]): Warning[] =>
  turned.map(({ name, turn, sd }) => ({
    code: 'hoop-turned',
    message: `${spoken(name)} is turned ${degrees(turn)}° ${turn > 0 ? 'anticlockwise' : 'clockwise'}, give or take ${degrees(giveOrTake(sd))}°.`,
  }));

const leanWarnings = (leaning: readonly Turned[]): Warning[] =>
  leaning.map(({ name, turn, sd }) => ({
    code: 'hoop-leaning',
    message: `${spoken(name)} leans ${degrees(turn)}° to the ${turn > 0 ? 'north' : 'south'}, give or take ${degrees(giveOrTake(sd))}°; set it upright.`,
  }));

const lineWarnings = (sides: readonly TracedSide[]): Warning[] =>
  sides
    .filter(({ share }) => share < UNTRACED)
    .map(({ side }) => ({
      code: 'line-not-traced',
      message: `The ${side} line could not be followed; what stands near it is measured less sharply.`,
    }));

/** The cautions that go with a court check, in a fixed order. */
export const checkWarnings = (
  { markers, hoops, peg }: Checked,
  turned: readonly Turned[],
  leaning: readonly Turned[],
  sides: readonly TracedSide[],
): Warning[] => [
  ...markers.flatMap(markerWarnings),
  ...hoops.flatMap((hoop) => placeWarnings(hoop.name, hoop)),
  ...placeWarnings('peg', peg),
  ...turnWarnings(turned),
  ...leanWarnings(leaning),
  ...lineWarnings(sides),
];
