import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { EntrySchema, GameEventSchema, GameFileSchema } from '../../server/contract/game.ts';
import { EVENT_TYPES, type GameEvent } from '../../server/games/events.ts';
import { checkGameFile, exportGame, importGame } from '../../server/games/game-file.ts';
import { positionsCsv } from '../../server/games/positions-csv.ts';
import { add, at, BEGUN, logOf, turn, wrong } from './builder.ts';

// What the schema lets through is what the log takes: checked by the compiler.
const asEvent = (event: z.output<typeof GameEventSchema>): GameEvent => event;

const LOG = logOf(
  BEGUN,
  turn('blue', { at: { blue: at(20, 5) } }),
  turn('red', { at: { red: at(6, 20) }, scored: ['red'] }),
  wrong('yellow', { at: { yellow: at(2, 2) }, touched: null }),
  { type: 'remedy', choice: 'annul' },
  { type: 'overrule', subject: 'other', decision: 'ten minutes for rain', reason: 'thunder' },
  { type: 'correction', how: 'replace', entry: 2, event: turn('blue', { at: { blue: at(21, 5) } }) },
);
const AT = '2024-05-04T10:00:00.000Z';

describe('an exported game', () => {
  it('comes back through its text the same', () => {
    const file = GameFileSchema.parse(JSON.parse(JSON.stringify(exportGame(LOG))));
    const found = importGame(file);
    expect(found).toEqual({ ok: true, value: LOG });
  });

  it.each([
    [{ kind: 'sward-game', version: 2, entries: [] }, 'otherVersion', /version 2.*version 1/],
    [{ kind: 'sward-game', entries: [] }, 'otherVersion', /no version.*version 1/],
    [{ kind: 'sward-spot', version: 1 }, 'notAGame', /not an exported game/],
    [null, 'notAGame', /not an exported game/],
    ['a text', 'notAGame', /not an exported game/],
  ] as const)('refuses %j', (file, code, words) => {
    const refused = checkGameFile(file)!;
    expect(refused.code).toBe(code);
    expect(refused.message).toMatch(words);
  });

  it('names the entry that does not fit', () => {
    const [begun, , third] = LOG.entries;
    const found = importGame({ kind: 'sward-game', version: 1, entries: [begun!, { ...third!, number: 2 }] });
    expect(found).toMatchObject({ ok: false, error: { code: 'wrongTurn', entry: 2 } });
  });
});

describe('the schema of events', () => {
  const SAMPLES: readonly GameEvent[] = [
    ...LOG.entries.map(({ event }) => event),
    { type: 'direction', ball: 'red', choice: 'leave' },
    { type: 'fault', by: 'red', choice: 'leave' },
    { type: 'ballsPutBack', positions: {} },
    { type: 'suspended' },
    { type: 'resumed' },
    { type: 'ended', reason: 'time', winner: null },
  ];

  it('has a form for every kind of event', () => {
    expect(new Set(SAMPLES.map(({ type }) => type))).toEqual(new Set(EVENT_TYPES));
    for (const event of SAMPLES) expect(asEvent(GameEventSchema.parse(event))).toEqual(event);
  });

  it('fills in what is usual', () => {
    expect(GameEventSchema.parse({ type: 'begun' })).toEqual({ ...BEGUN, names: undefined });
    expect(
      GameEventSchema.parse({
        type: 'turn',
        player: 'blue',
        ball: 'blue',
        positions: { blue: { x: 1, y: 2 } },
      }),
    ).toMatchObject({
      scored: [],
      positions: { blue: { sdX: 0, sdY: 0, correlation: 0, origin: 'placed' } },
    });
  });

  it.each([
    ['an unknown colour', { type: 'turn', player: 'mauve', ball: 'blue' }],
    [
      'a place as text',
      { type: 'turn', player: 'blue', ball: 'blue', positions: { blue: { x: '1', y: 2 } } },
    ],
    [
      'an infinite place',
      {
        type: 'turn',
        player: 'blue',
        ball: 'blue',
        positions: { blue: { x: Number.POSITIVE_INFINITY, y: 2 } },
      },
    ],
    ['an overrule without a reason', { type: 'overrule', subject: 'other', decision: 'x' }],
    ['a correction without an event', { type: 'correction', how: 'replace', entry: 2 }],
    [
      'a correction of a correction',
      {
        type: 'correction',
        how: 'replace',
        entry: 2,
        event: { type: 'correction', how: 'remove', entry: 1 },
      },
    ],
    ['too few hoops', { type: 'begun', points: 13, hoops: [1, 2, 3, 4, 5, 6, 7] }],
    ['an unknown kind', { type: 'pause' }],
  ])('refuses %s', (_name, event) => {
    expect(GameEventSchema.safeParse(event).success).toBe(false);
  });

  it('takes entries with their instants', () => {
    expect(EntrySchema.safeParse({ number: 1, at: AT, event: BEGUN }).success).toBe(true);
    expect(EntrySchema.safeParse({ number: 1, at: 'yesterday', event: BEGUN }).success).toBe(false);
  });
});

describe('positions as CSV', () => {
  it('has a row for every ball after every event that moved one', () => {
    const lines = positionsCsv(LOG).split('\r\n');
    expect(lines).toEqual([
      'entry,at,event,played,ball,x_m,y_m,sd_x_m,sd_y_m,correlation,origin',
      `2,${AT},turn,blue,blue,21.0000,5.0000,0.0100,0.0100,0.000,reading`,
      `3,${AT},turn,red,blue,21.0000,5.0000,0.0100,0.0100,0.000,reading`,
      `3,${AT},turn,red,red,6.0000,20.0000,0.0100,0.0100,0.000,reading`,
      `4,${AT},wrongBall,yellow,blue,21.0000,5.0000,0.0100,0.0100,0.000,reading`,
      `4,${AT},wrongBall,yellow,red,6.0000,20.0000,0.0100,0.0100,0.000,reading`,
      `4,${AT},wrongBall,yellow,yellow,2.0000,2.0000,0.0100,0.0100,0.000,reading`,
      `5,${AT},remedy,,blue,21.0000,5.0000,0.0100,0.0100,0.000,reading`,
      `5,${AT},remedy,,red,6.0000,20.0000,0.0100,0.0100,0.000,reading`,
      '',
    ]);
  });

  it('gives an entry put in the instant at which it was put in', () => {
    const grown = add(LOG, {
      type: 'correction',
      how: 'insertAfter',
      entry: 6,
      event: { type: 'ballsPutBack', positions: { red: at(6.1, 20) } },
    });
    expect(positionsCsv(grown)).toContain(`8,${AT},ballsPutBack,,red,6.1000`);
  });
});
