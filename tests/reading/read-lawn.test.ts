import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { parseMarks } from '../../server/contract/parse.ts';
import { type Reading, ReadingSchema } from '../../server/contract/reading.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { readLawn } from '../../server/reading/read-lawn.ts';
import { type Fixture, loadFixtures } from '../accuracy/fixtures.ts';
import { type PictureScore, scorePicture } from '../accuracy/measure.ts';

/** The path-traced pictures whose balls are known to be in plain sight; expected values: their truth files. */
const PLAIN = ['d1-terrace', 'd2-balcony', 'd3-corner', 'd4-mast', 'd5-secondary', 'd6-partial'];

/** Pictures full of shoes, hats and hands in the colours of balls, with balls behind legs and behind each other; expected values: their truth files. */
const CROWDED = ['behind-east', 'behind-south', 'crowd-on-lines', 'hidden-balls', 'legs-north', 'legs-south'];

const ALL = loadFixtures().filter(({ name }) => PLAIN.includes(name));

const read = async (fixture: Fixture): Promise<{ reading: Reading; score: PictureScore }> => {
  const photo = await openPhoto(readFileSync(fixture.photo));
  const reading = readLawn(photo, parseMarks(fixture.marks));
  return { reading, score: scorePicture(fixture, reading) };
};

describe('a lawn-wide reading', () => {
  it('has its six pictures', () => {
    expect(ALL.map(({ name }) => name)).toEqual(PLAIN);
  });

  for (const fixture of ALL)
    describe(fixture.name, () => {
      const answer = read(fixture);

      it('finds every visible ball under its right colour, none that is not there, none half a metre off', async () => {
        const { score } = await answer;
        expect(score.missed).toEqual([]);
        expect(score.wrongColour).toEqual([]);
        expect(score.falseBalls).toEqual([]);
        expect(Math.max(...score.matches.map(({ error }) => error))).toBeLessThan(0.5);
      });

      it('gives no firm call that is wrong', async () => {
        const { score } = await answer;
        expect(score.matches.filter(({ wrongCall }) => wrongCall).map(({ colour }) => colour)).toEqual([]);
      });

      it('answers in the form of the contract, with a budget that adds up to the stated uncertainty', async () => {
        const { reading } = await answer;
        expect(ReadingSchema.safeParse(reading).error).toBeUndefined();
        for (const ball of reading.balls) {
          const parts = Object.values(ball.budget ?? {});
          expect(parts.length).toBeGreaterThan(0);
          for (const axis of ['sdX', 'sdY'] as const)
            expect(Math.sqrt(parts.reduce((sum, part) => sum + part[axis] ** 2, 0))).toBeCloseTo(
              ball[axis],
              6,
            );
        }
      });

      it('knows where the photo was taken from, to 3 standard deviations and 60 mm', async () => {
        const { reading } = await answer;
        const { position } = fixture.truth.camera as { position: [number, number, number] };
        reading.camera.position.forEach((value, k) => {
          const sd = Math.sqrt(reading.pose!.covariance[k * 10]!);
          expect(Math.abs(value - position[k]!)).toBeLessThan(Math.max(3 * sd, 0.06));
        });
      });
    });

  it.each(CROWDED)("takes nobody's shoe, hat or hand for a ball in %s", async (name) => {
    const { score } = await read(loadFixtures().find((fixture) => fixture.name === name)!);
    expect(score.matches.length).toBeGreaterThanOrEqual(3);
    expect(score.wrongColour).toEqual([]);
    expect(score.falseBalls).toEqual([]);
    expect(score.matches.filter(({ wrongCall }) => wrongCall).map(({ colour }) => colour)).toEqual([]);
  });

  // Its truth file: five balls of which legs leave a fifth to two fifths.
  it('finds the five balls behind legs in legs-north, where they are', async () => {
    const { score } = await read(loadFixtures().find(({ name }) => name === 'legs-north')!);
    expect(score.hidden).toBe(5);
    expect(score.foundHidden).toBe(5);
    for (const { error } of score.matches) expect(error).toBeLessThan(0.05);
  });

  // A part of a brown shoe was once a brown ball there, firmly, while the ball itself is hidden by another (its truth file).
  it("takes nobody's shoe for a hidden ball in a copy of behind-east at quality 75", async () => {
    const fixture = loadFixtures().find(({ name }) => name === 'behind-east')!;
    const copy = await sharp(fixture.photo).keepMetadata().jpeg({ quality: 75 }).toBuffer();
    const score = scorePicture(fixture, readLawn(await openPhoto(copy), parseMarks(fixture.marks)));
    expect(score.matches.length).toBeGreaterThanOrEqual(3);
    expect(score.falseBalls).toEqual([]);
    expect(score.matches.filter(({ wrongCall }) => wrongCall)).toEqual([]);
  });

  it('says what would settle a call that is too close, the string on the lawn last', async () => {
    const { reading } = await read(ALL[0]!);
    const close = reading.call!.balls.filter(({ lies }) => lies === 'tooClose');
    expect(close.length).toBeGreaterThan(0);
    for (const { settle } of close) expect(settle?.at(-1)?.action).toBe('stringOnLawn');
  });
});
