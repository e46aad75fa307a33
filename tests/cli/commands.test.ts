import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AnswerSchema } from '../../server/contract/judge.ts';
import { ReadingSchema } from '../../server/contract/reading.ts';
import { type Outcome, openFolder, sward } from './harness.ts';

const root = new URL('../..', import.meta.url).pathname;

/** Runs the command line as a person does, in a process of its own; output as it came, in one piece each. */
const npmRun = (...words: string[]): Promise<Outcome> =>
  new Promise((resolve, reject) => {
    const child = spawn('npm', ['run', '--silent', 'sward', '--', ...words], { cwd: root });
    let [out, err] = ['', ''];
    child.stdout.on('data', (data) => {
      out += data;
    });
    child.stderr.on('data', (data) => {
      err += data;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code: code ?? -1, out: [out], err: [err] }));
  });

let folder: Awaited<ReturnType<typeof openFolder>>;
beforeAll(async () => {
  folder = await openFolder();
});
afterAll(() => folder.close());

const PHOTO = 'fixtures/photos/d1-terrace';

describe('read', () => {
  it('puts out one JSON document in the form of the contract, and nothing else', async () => {
    const { code, out, err } = await npmRun(
      'read',
      `${PHOTO}.jpg`,
      '--marks',
      `${PHOTO}.marks.json`,
      '--json',
    );
    expect(err).toEqual(['']);
    expect(code).toBe(0);
    const reading = ReadingSchema.parse(JSON.parse(out[0]!));
    // The truth beside the fixture: a picture of 3264 × 2448 px from 7.2 m high, hoop 1 scored, its line through y = 16.002 m.
    expect(reading.photo).toEqual({ width: 3264, height: 2448 });
    expect(reading.camera.position[2]).toBeCloseTo(7.2, 1);
    expect(reading.call).toMatchObject({ hoopScored: 1, nextHoop: 2, line: { axis: 'y', nextHoopSide: 1 } });
    expect(reading.call?.line.at).toBeCloseTo(16.002, 9);
    expect(new Set(reading.balls.map(({ colour }) => colour)).size).toBe(reading.balls.length);
  });

  it('tells the same in words, one ball a line', async () => {
    const { code, out, err } = await sward('read', `${PHOTO}.jpg`, '--marks', `${PHOTO}.marks.json`);
    expect([code, err]).toEqual([0, []]);
    const lines = out[0]!.split('\n');
    expect(lines[0]).toMatch(/^After hoop 1 the line is 16.00 m north/);
    // Truth of the fixture: yellow's centre is 300 mm past the line, black's 60 mm short of it.
    expect(lines.find((line) => line.startsWith('Yellow'))).toMatch(/all of it is past the line/);
    expect(lines.find((line) => line.startsWith('Black'))).not.toMatch(/all of it is past the line/);
  });
});

describe('judge', () => {
  const QUESTION = {
    kind: 'offside',
    edition: '2022',
    hoopScored: 4,
    striker: 'black',
    balls: {
      blue: { x: 14.2, y: 20.1, sd: 0.01, arrivedBy: { strokeOf: 'blue', touched: [] } },
      red: { x: 10.0, y: 5.0, sd: 0.01, arrivedBy: { strokeOf: 'red', touched: ['black'] } },
      black: { x: 20.9, y: 6.1, sd: 0.01 },
    },
  };
  // By hand from the published rule ("Essential rules simplified" no. 1, and contact with an opponent's ball): after hoop 4 the line is
  // x = 16.002 m and hoop 5 lies to the west, so blue and red are past it, red excused, black is not.
  it('answers as JSON', async () => {
    const { code, out } = await sward('judge', await folder.put('question.json', QUESTION), '--json');
    expect(code).toBe(0);
    const answer = AnswerSchema.parse(JSON.parse(out[0]!)) as {
      balls: { colour: string; verdict: string }[];
    };
    expect(answer.balls.map(({ colour, verdict }) => [colour, verdict])).toEqual([
      ['blue', 'offside'],
      ['red', 'excused'],
      ['black', 'onside'],
    ]);
  });
  it('answers in words', async () => {
    const { out } = await sward('judge', await folder.put('question.json', QUESTION));
    expect(out[0]).toMatch(/^Blue: offside\./m);
  });
  it('answers about a wrong ball', async () => {
    const question = {
      kind: 'wrongBall',
      format: 'doubles',
      colours: 'secondary',
      lastRight: 'green',
      strokes: [{ player: 'pink', ball: 'brown' }],
    };
    const { code, out } = await sward('judge', await folder.put('wrong.json', question), '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out[0]!)).toMatchObject({ wrong: true });
  });
});

describe('help and version', () => {
  it.each([['help'], ['--help'], ['read', '--help']])('lists every command for %s %s', async (...words) => {
    const { code, out, err } = await sward(...words.filter(Boolean));
    expect([code, err]).toEqual([0, []]);
    for (const name of ['read PHOTO', 'sight PHOTO', 'check PHOTO', 'judge FILE', 'version', 'help']) {
      expect(out[0]).toContain(name);
    }
  });
  it('sets what each command does in one column, clear of the longest usage', async () => {
    const { out } = await sward('help');
    const lines = out[0]!.split('\n').filter((line) => /^ {2}\S/.test(line));
    expect(lines.length).toBeGreaterThanOrEqual(7);
    expect(new Set(lines.map((line) => line.lastIndexOf('  '))).size).toBe(1);
  });
  it('tells the version of the package', async () => {
    const { version } = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as { version: string };
    expect(await sward('version')).toEqual({ code: 0, out: [version], err: [] });
  });
});

describe('a process of its own', () => {
  it('ends with code 2 and one line on standard error for a fault of the input', async () => {
    const photo = await folder.put('photo.jpg', 'not a picture');
    const marks = await folder.put('marks.json', { points: { corner1: [1, 2] } });
    const { code, out, err } = await npmRun('read', photo, '--marks', marks, '--json');
    expect(code).toBe(2);
    expect(out).toEqual(['']);
    expect(err[0]).toMatch(/^The file is not a picture[^\n]*\.\n$/);
  });
});
