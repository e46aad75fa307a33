import { describe, expect, it } from 'vitest';
import { simulate } from '../accuracy/simulation.ts';
import { simulationTables } from '../accuracy/simulation-report.ts';
import { coverageAt, summarise } from '../accuracy/simulation-summary.ts';

// The full run (5,000 pictures) is part of `npm run accuracy`; this is its short form.
const PICTURES = 400;

describe('simulated pictures from scene to call', () => {
  const trials = simulate(PICTURES, 20260);
  const summary = summarise(trials);
  const balls = trials.flatMap((trial) => trial.balls);

  // 770 balls, two to a picture and so not independent: a share of 95 % is known to about 1.1 points. The full run must hold 93 to 97 %; here three of
  // its standard deviations more are allowed.
  it('have errors inside their stated regions as often as stated', () => {
    expect(coverageAt(balls, 0.95)).toBeGreaterThan(0.91);
    expect(coverageAt(balls, 0.95)).toBeLessThan(0.985);
    expect(coverageAt(balls, 0.5)).toBeGreaterThan(0.43);
    expect(coverageAt(balls, 0.5)).toBeLessThan(0.57);
    expect(summary.ratio).toBeGreaterThan(0.85);
    expect(summary.ratio).toBeLessThan(1.2);
  });

  it('have at most one wrong call in a hundred firm ones, and do make firm calls', () => {
    expect(summary.firm).toBeGreaterThan(0.6 * summary.balls);
    expect(summary.wrong).toBeLessThanOrEqual(0.01 * summary.firm);
  });

  it('are hardly ever refused', () => {
    const refused = trials.filter(({ fault }) => fault !== null);
    expect(refused.length).toBeLessThanOrEqual(4);
    for (const { fault } of refused) expect(['too-few-points', 'points-in-line']).toContain(fault);
  });

  it('are the same again from the same seed', () => {
    const [a, b] = [simulate(5, 3), simulate(5, 3)];
    expect(a.flatMap((t) => t.balls.map((ball) => ball.square))).toEqual(
      b.flatMap((t) => t.balls.map((ball) => ball.square)),
    );
  });

  it('are summed up in tables', () => {
    const text = simulationTables(summary);
    expect(text).toContain(`${PICTURES} simulated pictures, ${summary.balls} balls read`);
    expect(text.split('\n').filter((line) => line.startsWith('|'))).toHaveLength(12);
  });
});

describe('counting coverage', () => {
  const trial = (square: number) => ({ balls: [{ square } as never], fault: null });

  // χ² with two degrees of freedom: the 95 % quantile is −2 ln 0.05 = 5.99 (NIST/SEMATECH e-Handbook, table of χ²).
  it('takes the bound of a region from χ² with two degrees of freedom', () => {
    const balls = [5.9, 6.1].map((square) => trial(square).balls[0]!);
    expect(coverageAt(balls, 0.95)).toBe(0.5);
  });
});
