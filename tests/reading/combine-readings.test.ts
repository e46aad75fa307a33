import { describe, expect, it } from 'vitest';
import { CombinationSchema } from '../../server/contract/combine.ts';
import { InputError } from '../../server/errors.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { combineReadings, type PictureAnswer } from '../../server/reading/combine-readings.ts';
import { between, normal, seeded } from '../accuracy/random.ts';
import { type Position, phoneAt, takeLawn, takeSighting, UNEVENNESS } from './simulated-answers.ts';

const TERRACE = phoneAt(11, -19, 7.2, 12.8, 14);
const CORNER = phoneAt(-7, -6, 6.5, 12, 15);
const BEHIND_W = phoneAt(-3, 16.1, 1.6, 12, 16);

/** Four balls near the line of hoop 1, of which the sighting sees those near its axis. */
const lay = (random: () => number): Position =>
  new Map(
    (['blue', 'red', 'black', 'yellow'] as const).map((colour, i) => [
      colour,
      {
        x: 5 + 4.5 * i + between(random, -1, 1),
        y: 16.002 + between(random, -0.6, 0.6),
        z: BALL_RADIUS + UNEVENNESS * normal(random),
      },
    ]),
  );

const moved = (balls: Position, dy: number): Position =>
  new Map([...balls, ['red', { ...balls.get('red')!, y: balls.get('red')!.y + dy }]]);

const rms = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

const refusal = (act: () => unknown): string => {
  try {
    act();
  } catch (error) {
    if (error instanceof InputError) return error.code;
    throw error;
  }
  return 'answered';
};

describe('a lawn-wide picture and a sighting of the same balls', () => {
  const random = seeded(17);
  const runs = Array.from({ length: 80 }, () => {
    const balls = lay(random);
    const lawn = takeLawn(random, TERRACE, balls, { name: 'the terrace picture' });
    const sighting = takeSighting(random, BEHIND_W, balls, { name: 'the sighting' });
    return { balls, lawn, sighting, combined: combineReadings([lawn, sighting]) };
  });
  const errors = (
    pick: (
      run: (typeof runs)[number],
    ) => readonly { colour: string; x?: number | undefined; y?: number | undefined }[],
    axis: 'x' | 'y',
  ) =>
    runs.flatMap((run) => pick(run).map((ball) => ball[axis]! - run.balls.get(ball.colour as 'red')![axis]));

  // The sighting is sharp across its line (y) and blunt along it (x), the terrace picture the other way round: expected from the geometry of both.
  for (const axis of ['x', 'y'] as const)
    it(`place ${axis} no worse together than the better one alone`, () => {
      const together = rms(errors(({ combined }) => combined.balls, axis));
      const alone = [
        errors(({ lawn }) => lawn.answer.balls, axis),
        errors(({ sighting }) => sighting.answer.balls, axis),
      ];
      expect(together).toBeLessThanOrEqual(Math.min(...alone.map(rms)) * 1.02);
    });

  it('state no larger deviation than either alone', () => {
    for (const { lawn, sighting, combined } of runs)
      for (const ball of combined.balls)
        for (const { answer } of [lawn, sighting]) {
          const own = answer.balls.find(({ colour }) => colour === ball.colour);
          if (own) expect(ball.sdY).toBeLessThanOrEqual(own.sdY! * 1.001);
        }
  });

  // 320 balls: a share of 0.95 has a standard deviation of 1.2 %.
  it('state a 95 % margin across the line that holds 93 to 97 in 100, give or take the sample', () => {
    const inside = runs.flatMap(({ balls, combined }) =>
      combined.balls.map(({ colour, y, sdY }) => Math.abs(y - balls.get(colour)!.y) <= 1.96 * sdY),
    );
    const share = inside.filter(Boolean).length / inside.length;
    expect(share).toBeGreaterThan(0.92);
    expect(share).toBeLessThan(0.985);
  });

  it('say nothing of a moved ball when none was', () => {
    const alarmed = runs.filter(({ combined }) => combined.warnings.length > 0);
    expect(alarmed.length).toBeLessThanOrEqual(1);
  });

  it('call every ball on the line of hoop 1', () => {
    const { combined } = runs[0]!;
    expect(combined.call).toMatchObject({ hoopScored: 1, nextHoop: 2, line: { axis: 'y', nextHoopSide: 1 } });
    expect(combined.call!.balls.map(({ colour }) => colour)).toEqual(
      combined.balls.map(({ colour }) => colour),
    );
  });

  it('give an answer as the contract describes it', () => {
    expect(CombinationSchema.parse(runs[0]!.combined)).toEqual(runs[0]!.combined);
  });

  it('give the same whatever their order, and change no argument', () => {
    const { lawn, sighting, combined } = runs[1]!;
    const copies = structuredClone([sighting, lawn]);
    const other = combineReadings([sighting, lawn]);
    for (const { colour, x, y } of combined.balls) {
      const same = other.balls.find((ball) => ball.colour === colour)!;
      expect(Math.hypot(same.x - x, same.y - y)).toBeLessThan(1e-6);
    }
    expect([sighting, lawn]).toEqual(copies);
  });
});

describe('disagreement beyond chance', () => {
  const random = seeded(23);
  const balls = lay(random);
  const lawn = takeLawn(random, TERRACE, balls, { name: 'picture 1' });
  const corner = takeLawn(random, CORNER, balls, { name: 'picture 2' });

  it('names the ball that was moved 150 mm, and calls it no more', () => {
    const sighting = takeSighting(random, BEHIND_W, moved(balls, 0.15), { name: 'picture 2' });
    const { warnings, balls: found, call, agreement } = combineReadings([lawn, sighting]);
    expect(agreement.probability).toBeLessThan(0.001);
    expect(warnings.map(({ code }) => code)).toEqual(['ball-moved-or-mark-wrong']);
    expect(warnings[0]!.message).toMatch(
      /^The red ball was moved between the pictures, or a mark is wrong: picture [12] shows it 1\d\d mm from where picture [12] does/,
    );
    expect(found.filter(({ fits }) => !fits).map(({ colour }) => colour)).toEqual(['red']);
    expect(call!.balls.find(({ colour }) => colour === 'red')!.lies).toBe('tooClose');
  });

  it('names the picture too when three were taken', () => {
    const sighting = takeSighting(random, BEHIND_W, moved(balls, -0.2), { name: 'picture 3' });
    const { warnings } = combineReadings([lawn, corner, sighting]);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]!.message).toContain('picture 3 shows it');
    expect(warnings[0]!.message).toContain('from where picture 1 and picture 2 do');
  });

  it('names the mark when it is not one ball but most', () => {
    // 12 px at the far marker are 150 mm of 26 m: every ball is thrown off, most in the far half.
    const bad = takeSighting(random, BEHIND_W, balls, { name: 'picture 3', off: { markerE: 14 } });
    const { warnings, call } = combineReadings([lawn, corner, bad]);
    expect(warnings.map(({ code }) => code)).toEqual(['ball-moved-or-mark-wrong']);
    expect(warnings[0]!.message).toContain('a mark is wrong in picture 3');
    expect(warnings[0]!.message).toMatch(/Look at the mark of .+ in picture 3 first/);
    expect(call!.balls.every(({ lies }) => lies === 'tooClose')).toBe(true);
  });
});

describe('pictures that cannot be combined are refused in one sentence', () => {
  const random = seeded(29);
  const balls = lay(random);
  const lawn = takeLawn(random, TERRACE, balls, { name: 'picture 1' });
  const other = takeLawn(random, CORNER, balls, { name: 'picture 2' });
  const changed = (change: object): PictureAnswer => ({ ...other, marks: { ...other.marks, ...change } });
  const poseless = { ...other, answer: { ...other.answer, pose: undefined } } as PictureAnswer;

  it.each([
    ['one picture', [lawn], 'pictures-missing'],
    ['a picture without its camera', [lawn, poseless], 'pose-missing'],
    ['lawns of two sizes', [lawn, changed({ lawn: { ...lawn.marks.lawn, width: 20 } })], 'lawns-differ'],
    ['two points scored', [lawn, changed({ hoopScored: 3 })], 'points-differ'],
  ] as const)('%s', (_, pictures, code) => {
    expect(refusal(() => combineReadings(pictures))).toBe(code);
  });

  it('takes the point that is given over those that were', () => {
    const { call } = combineReadings([lawn, changed({ hoopScored: 3 })], 3);
    expect(call!.hoopScored).toBe(3);
    expect(combineReadings([lawn, other], null).call).toBeUndefined();
  });

  it('cautions when no ball is seen twice', () => {
    const only = { ...other, answer: { ...other.answer, balls: [] } } as PictureAnswer;
    expect(combineReadings([lawn, only]).warnings.map(({ code }) => code)).toEqual(['nothing-in-common']);
  });
});
