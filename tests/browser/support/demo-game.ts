import type { GameEventInput } from '../../../server/contract/game.ts';
import type { BallColour } from '../../../server/lawn/colours.ts';

/** How the demonstration game is played. People and club are invented. */
export const DEMO_GAME = {
  title: 'Fernbeck Croquet Club, summer doubles',
  colours: 'first',
  format: 'doubles',
  points: 7,
  edition: '2022',
  names: { blue: 'Ida Holm', red: 'Tomas Reyl', black: 'Wen Adair', yellow: 'Jory Pell' },
} as const;

type Spot = readonly [number, number];
type Spots = { readonly [ball in BallColour]?: Spot };

/** Standard deviation of the demonstration's places, metres: as good as a finger on a plan. */
const SD = 0.25;

const placed = (spots: Spots) =>
  Object.fromEntries(
    Object.entries(spots).map(([ball, [x, y]]) => [
      ball,
      { x, y, sdX: SD, sdY: SD, origin: 'placed' as const },
    ]),
  );

/** A turn by hand: the ball played, where balls rest, which touched, which scored. */
export const demoTurn = (
  ball: BallColour,
  spots: Spots,
  touched: [BallColour, BallColour][] = [],
  scored: BallColour[] = [],
): GameEventInput => ({ type: 'turn', player: ball, ball, positions: placed(spots), touched, scored });

/** Eight turns: the opening, and three balls that run long. In the eighth yellow scores hoop 1, as the picture from the terrace shows. */
export const BEFORE_HOOP_1: readonly GameEventInput[] = [
  demoTurn('blue', { blue: [7.3, 4.6] }),
  demoTurn('red', { red: [5.9, 5.1] }),
  demoTurn('black', { black: [8.4, 5.3] }),
  demoTurn('yellow', { yellow: [6.2, 4.4] }),
  demoTurn('blue', { blue: [22.2, 16.1] }),
  demoTurn('red', { red: [8.9, 16.0] }),
  demoTurn('black', { black: [5.1, 15.9] }),
];

/** Standard deviation of a place in that picture across the halfway line, metres: about what a reading of it states. */
const READ_SD = 0.008;

/** Hoop 1 as the picture from the terrace shows it (fixtures/photos/d1-terrace.truth.json, to the centimetre), without the picture. */
export const HOOP_1 = {
  type: 'turn',
  player: 'yellow',
  ball: 'yellow',
  positions: {
    blue: { x: 22.24, y: 16.08, sdX: READ_SD, sdY: READ_SD, origin: 'placed' },
    yellow: { x: 5.79, y: 16.3, sdX: READ_SD, sdY: READ_SD, origin: 'placed' },
  },
  touched: [],
  scored: ['yellow'],
} satisfies GameEventInput;

/** To hoop 2. Black is hit beside red and goes far past the line; in the twelfth turn a wrong ball is played. */
export const TO_HOOP_2: readonly GameEventInput[] = [
  demoTurn('blue', { blue: [6.8, 22.6] }),
  demoTurn('red', { red: [7.2, 23.4] }),
  demoTurn('black', { black: [21.6, 28.2], red: [9.0, 22.0] }, [['red', 'black']]),
];

/** Jory Pell, whose ball is yellow, plays red. */
export const WRONG_BALL: GameEventInput = {
  type: 'wrongBall',
  player: 'yellow',
  ball: 'red',
  positions: placed({ red: [6.5, 22.1] }),
  touched: [],
  scored: [],
};

/** Yellow rightly, and blue scores hoop 2: black lies past the line, but it touched red on its way. */
export const HOOP_2: readonly GameEventInput[] = [
  demoTurn('yellow', { yellow: [6.0, 24.4] }),
  demoTurn('blue', { blue: [6.6, 28.0] }, [], ['blue']),
];

/** To hoop 3, up to where the light fails. */
export const TO_HOOP_3: readonly GameEventInput[] = [
  demoTurn('red', { red: [18.0, 27.4] }),
  demoTurn('black', { black: [19.6, 28.0] }),
];

/** From the next day's start to the turn that another picture shows: at the peg's line, three balls where that picture has them. */
export const TO_THE_SECOND_PICTURE: readonly GameEventInput[] = [
  demoTurn('yellow', { yellow: [17.2, 27.9] }),
  demoTurn('blue', { blue: [20.6, 29.1] }),
  demoTurn('red', { red: [19.1, 22.3] }, [], ['red']),
  demoTurn('black', { black: [19.9, 9.4] }),
  demoTurn('yellow', { yellow: [18.6, 8.9] }),
  demoTurn('blue', { blue: [20.8, 11.2] }),
  demoTurn('red', { red: [18.2, 10.4] }),
  demoTurn('black', { black: [19.3, 3.1] }, [], ['black']),
  demoTurn('yellow', { yellow: [12.5, 8.0] }),
  demoTurn('blue', { blue: [13.9, 7.6] }),
  demoTurn('red', { red: [11.6, 7.3] }),
  demoTurn('black', { black: [10.9, 8.4] }),
  demoTurn('yellow', { yellow: [12.8, 12.4] }, [], ['yellow']),
  demoTurn('blue', { blue: [12.8, 8.3] }),
  demoTurn('red', { red: [12.9, 13.2] }),
  demoTurn('black', { black: [12.8, 20.3] }),
];

/** What that picture shows of yellow (fixtures/rendered/clubhouse-noon.truth.json), without the picture. */
export const SECOND_PICTURE: GameEventInput = demoTurn('yellow', { yellow: [12.87, 27.9] });

/** To the winning hoop: red and yellow win by four to two. */
export const TO_THE_END: readonly GameEventInput[] = [
  demoTurn('blue', { blue: [14.2, 22.9] }),
  demoTurn('red', { red: [12.8, 25.3] }, [], ['red']),
];

/** The whole game without a picture, in the order of its entries. */
export const WHOLE_GAME: readonly GameEventInput[] = [
  ...BEFORE_HOOP_1,
  HOOP_1,
  { type: 'direction', ball: 'blue', choice: 'west' },
  ...TO_HOOP_2,
  WRONG_BALL,
  { type: 'remedy', choice: 'replaceAndReplay' },
  ...HOOP_2,
  ...TO_HOOP_3,
  { type: 'suspended', reason: 'Failing light' },
  { type: 'resumed' },
  ...TO_THE_SECOND_PICTURE,
  SECOND_PICTURE,
  ...TO_THE_END,
  { type: 'ended', reason: 'points', winner: 1 },
];

const post = async (
  address: string,
  path: string,
  json: unknown,
): Promise<{ id: string; version: number }> => {
  const response = await fetch(`${address}/api${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(json),
  });
  const body = await response.json();
  if (!response.ok) throw new Error(`${path} answered ${response.status}: ${JSON.stringify(body)}`);
  return body as { id: string; version: number };
};

/** Begins the demonstration game on the server; resolves with its id. */
export const beginDemo = async (address: string): Promise<string> =>
  (await post(address, '/games', DEMO_GAME)).id;

/** Adds entries to a game as another device would. */
export const addToGame = async (
  address: string,
  id: string,
  events: readonly GameEventInput[],
): Promise<void> => {
  const { version } = (await (await fetch(`${address}/api/games/${id}`)).json()) as { version: number };
  await post(address, `/games/${id}/events`, { expectedVersion: version, events });
};

/** Has a sample photo of the installation read for the balls of a game; resolves with the reading's id. */
export const readSample = async (
  address: string,
  name: string,
  balls: readonly BallColour[],
): Promise<string> => {
  const { photoId, marks } = (await post(address, `/samples/${name}`, {})) as unknown as {
    photoId: string;
    marks: object;
  };
  return (await post(address, '/readings', { photoId, marks: { ...marks, balls } })).id;
};
