import { execFileSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { openCards } from '../../server/cards/open-cards.ts';
import { BegunSchema, GameEventSchema } from '../../server/contract/game.ts';
import { MarksSchema } from '../../server/contract/marks.ts';
import type { CheckRecord, LawnRecord } from '../../server/contract/record.ts';
import { defaultSettings } from '../../server/contract/settings.ts';
import type { GameEvent } from '../../server/games/events.ts';
import { appendEvent, type GameLog } from '../../server/games/log.ts';
import { uprightJpeg } from '../../server/photo/page-images.ts';
import { terrace } from '../http/pictures.ts';
import { at, lawnRecord } from '../store/samples.ts';

const cards = openCards();
const settings = defaultSettings();
const options = { photo: null, settings, spot: 'Clubhouse terrace', game: 'Holm v Reyl' };

const reader = (() => {
  try {
    execFileSync('pdftotext', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    console.warn(
      'pdftotext is not installed, so PDFs are not read back; install the Debian package "poppler-utils".',
    );
    return false;
  }
})();
/** The words of a PDF in the order in which they are read. */
const wordsIn = (pdf: Uint8Array): string =>
  execFileSync('pdftotext', ['-layout', '-', '-'], { input: pdf })
    .toString('utf8')
    .replaceAll(/[ \t]+/g, ' ');

const record = (changes: Partial<LawnRecord> = {}): LawnRecord =>
  lawnRecord(randomUUID(), {
    verdict: {
      edition: '2022',
      balls: [
        {
          colour: 'blue',
          beyond: 0.034,
          sd: 0.017,
          lies: 'tooClose',
          verdict: 'tooClose',
          reason: 'It is too close.',
          rule: 'rule 8 of the 6th edition (2022)',
        },
      ],
    },
    ...changes,
  });

const place = (within: boolean | null, dx: number | null, dy: number | null) => ({
  dx,
  dy,
  sd: dx === null ? null : 0.01,
  within,
});
const check: CheckRecord = {
  id: randomUUID(),
  kind: 'check',
  revision: 1,
  createdAt: at(0),
  updatedAt: at(0),
  photoId: randomUUID(),
  game: null,
  spot: null,
  note: null,
  sentence: '2 of 4 places are off, 1 not seen.',
  marks: MarksSchema.parse({ points: {} }),
  tolerance: 0.15,
  markers: [
    { name: 'W', along: 0.18, sd: 0.01, within: false },
    { name: 'S14', along: null, sd: null, within: null },
  ],
  hoops: [{ name: 'hoop1', ...place(true, 0.02, -0.01) }],
  peg: place(false, 0, 0.2),
  warnings: [],
};

const begun = BegunSchema.parse({
  type: 'begun',
  names: { blue: 'Ida Holm', red: 'Tomas Reyl' },
  lawnName: 'Fernbeck, lawn 2',
});
const turn = (ball: string, x: number, y: number, scored: string[] = []) =>
  GameEventSchema.parse({
    type: 'turn',
    player: ball,
    ball,
    positions: { [ball]: { x, y, sdX: 0.01, sdY: 0.01 } },
    scored,
  });
const log = [
  begun,
  turn('blue', 7.2, 5.1),
  turn('red', 6.1, 5.6),
  turn('black', 9.1, 7.6),
  turn('yellow', 4.9, 9),
  turn('blue', 6.4, 8.9, ['blue']),
].reduce<GameLog | null>((grown, event, index) => {
  const outcome = appendEvent(grown, event as GameEvent, at(index));
  if (!outcome.ok) throw new Error(outcome.error.message);
  return outcome.value;
}, null)!;
const print = { log, entry: log.version, settings };

describe('the text card', () => {
  it('says for each ball how far it lies past the line and how sure that is', () => {
    const text = cards.text(record(), options);
    // 34 mm = 1.339 in, to the eighth 1⅜; 1.96 × 17 mm = 33.3 mm.
    expect(text).toContain(
      'Blue: too close to call. 34 mm (1⅜ in) past the line, give or take 33 mm; all of it across: 98 in 100. Undecided. It is too close. Rule 8 of the 6th edition (2022).',
    );
    expect(text).toContain(
      'The call after hoop 1 · Lawn 1, Clubhouse terrace · Holm v Reyl · 20 June 2026, 12:01 UTC',
    );
    expect(text).toContain('may always test on the lawn');
  });

  it('speaks metric where the club does', () => {
    expect(cards.text(record(), { ...options, settings: { ...settings, units: 'metric' } })).toContain(
      'Blue: too close to call. 34 mm past the line',
    );
  });

  it('lists the places of a court check', () => {
    const text = cards.text(check, options);
    expect(text).toContain('W: 180 mm along its boundary');
    expect(text).toContain('S14: not seen along its boundary');
    expect(text).toContain('peg: 0 mm to the east, 200 mm to the north');
  });
});

describe('the picture card', () => {
  it('is a PNG, with the photo or without the people', async () => {
    const photo = await uprightJpeg(terrace());
    const [shown, bare] = [
      await cards.png(record(), { ...options, photo }),
      await cards.png(record(), options),
    ];
    for (const png of [shown, bare]) expect([...png.subarray(1, 4)]).toEqual([...Buffer.from('PNG')]);
    // The photo's pixels weigh more than the flat colours of the drawing.
    expect(shown.length).toBeGreaterThan(bare.length * 1.5);
  });
});

describe.runIf(reader)('read back from its PDF', () => {
  it('a card holds its sentence, measures, verdict and caution', async () => {
    const words = wordsIn(await cards.pdf(record({ note: 'Łukasz asked' }), options));
    for (const part of [
      'The call after hoop 1',
      'Blue is too close to call.',
      '34 mm',
      'Undecided. It is too close.',
      'Łukasz asked',
      'Clubhouse terrace · Holm v Reyl',
      'may always test on the lawn',
    ])
      expect(words).toContain(part);
  });

  it('a card of eight balls holds them all, on as many pages as it needs', async () => {
    const colours = ['blue', 'red', 'black', 'yellow', 'green', 'pink', 'brown', 'white'] as const;
    const calls = colours.map((colour) => ({
      colour,
      beyond: 0.02,
      sd: 0.01,
      probability: 0.97,
      lies: 'tooClose' as const,
    }));
    const words = wordsIn(await cards.pdf(record({ call: { ...record().call!, balls: calls } }), options));
    for (const colour of colours)
      expect(words).toContain(`${colour[0]!.toUpperCase()}${colour.slice(1)}: too close to call`);
    expect(words).toContain('2 of 2');
  });

  it('the list of a court check says what to move, which way and how far', async () => {
    const words = wordsIn(await cards.pdf(check, options));
    expect(words).toMatch(/West marker 180 mm north Move 180 mm south 20 mm/);
    expect(words).toMatch(/South marker at 14 yd not seen Look for it on the lawn/);
    expect(words).toMatch(/Hoop 1 20 mm east, 10 mm south Within the tolerance 20 mm/);
    expect(words).toMatch(/Peg 200 mm north Move 200 mm south 20 mm/);
  });

  it('the put-back card gives the two nearest boundaries and two fixed points', async () => {
    const words = wordsIn(await cards.putBackPdf(print));
    // Blue rests at (6.4, 8.9): 6.400 m = 7 yd from the west boundary, 8.900 m = 9 yd 2 ft 2 in from the south one.
    expect(words).toMatch(/from the west boundary 7 yd · 6\.400 m ± 20 mm/);
    expect(words).toMatch(/from the south boundary 9 yd 2 ft 2 in · 8\.900 m ± 20 mm/);
    expect(words.match(/from (hoop|corner|the peg)/g)).toHaveLength(8);
  });

  it('the put-back card of an earlier moment shows where the balls lay then', async () => {
    const words = wordsIn(await cards.putBackPdf({ ...print, entry: 2 }));
    // Blue lay at (7.2, 5.1) after its first turn, and nothing else had been played.
    expect(words).toMatch(/from the south boundary 5 yd 1 ft 9 in · 5\.100 m/);
    expect(words).not.toContain('Red');
  });

  it('the score sheet holds the sides, the points and the entries', async () => {
    const words = wordsIn(await cards.scorePdf(print));
    for (const part of ['Ida Holm v Tomas Reyl', 'Fernbeck, lawn 2 · Under way', 'Blue plays; Blue scores'])
      expect(words).toContain(part);
    expect(words).toMatch(/1 1, northward Blue 1 ?– ?0 6/);
    expect(words).toMatch(/13 3, southward/);
  });
});

describe('the plan of a game', () => {
  it('is an SVG that names the game and shows each ball', () => {
    const svg = cards.planSvg(print);
    expect(svg).toContain('<title>Ida Holm v Tomas Reyl, 1 to 0: where the balls lie after entry 6.</title>');
    for (const letter of ['B', 'R', 'K', 'Y']) expect(svg).toContain(`aria-label="${letter}"`);
  });

  it('of an earlier moment shows the balls of then', () => {
    const svg = cards.planSvg({ ...print, entry: 3 });
    expect(svg).toContain('aria-label="R"');
    expect(svg).not.toContain('aria-label="K"');
  });

  it('is the same file each time it is drawn', async () => {
    expect(
      Buffer.compare(Buffer.from(await cards.planPng(print)), Buffer.from(await cards.planPng(print))),
    ).toBe(0);
  });
});
