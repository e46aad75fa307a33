import { describe, expect, it } from 'vitest';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { type CourtPlace, howToMove, standingOf } from '../../web/court/court-places.ts';
import { arrowHead, enlargement, labelSpot } from '../../web/court/plan-arrows.ts';
import { sayPaint, sayScale, saySquareness } from '../../web/court/say-court.ts';
import { changeMarks, type Draft, marksOf } from '../../web/draft/draft.ts';
import { trueDistance } from '../../web/marking/taped-distance.ts';

const place = (off: CourtPlace['off'], within: boolean | null): CourtPlace => ({
  name: 'markerW',
  words: 'Marker on the west boundary',
  x: 0,
  y: 16.002,
  off,
  within,
});

describe('how a thing of the court stands', () => {
  const off = { dx: 0, dy: 0.18, give: 0.02 };
  const cases = [
    ['off for certain', off, false, 'off'],
    ['in its place', off, true, 'fine'],
    ['too close to say', off, null, 'unsure'],
    ['not seen', null, null, 'unseen'],
  ] as const;
  it.each(cases)('%s', (_name, displaced, within, expected) => {
    expect(standingOf(place(displaced, within))).toBe(expected);
  });
});

describe('which way to move it back', () => {
  // East and north are positive, so what stands too far north goes south.
  const cases = [
    [{ dx: 0, dy: 0.18 }, '180 mm to the south'],
    [{ dx: -0.02, dy: 0.035 }, '20 mm to the east and 35 mm to the south'],
    [{ dx: 0.0001, dy: -0.0004 }, 'no way at all'],
  ] as const;
  it.each(cases)('%o: %s', (off, expected) => {
    expect(howToMove(off)).toBe(expected);
  });
});

describe('arrows on the plan', () => {
  it('are as long as the plan bears: 3 m for the largest, so 300 mm is drawn ten times', () => {
    expect(enlargement([place({ dx: 0, dy: 0.3, give: 0.01 }, false)])).toBe(10);
  });
  it('are never drawn shorter than true nor more than twenty times as long', () => {
    expect(enlargement([place({ dx: 0, dy: 9, give: 0.01 }, false)])).toBe(1);
    expect(enlargement([place({ dx: 0, dy: 0.01, give: 0.01 }, null)])).toBe(20);
  });
  it('take no notice of what stands in its place', () => {
    expect(enlargement([place({ dx: 0, dy: 0.14, give: 0.01 }, true)])).toBe(20);
  });
  it('have no head without a length', () => {
    expect(arrowHead({ x: 1, y: 1 }, { x: 1, y: 1 })).toBe('');
    expect(arrowHead({ x: 0, y: 0 }, { x: 0, y: 4 })).toContain('L0 4L');
  });
  it('keep their lengths inside the lawn', () => {
    for (const name of ['markerW', 'markerE', 'markerS14', 'markerN14'] as const) {
      const at = { markerW: [0, 16], markerE: [25.6, 16], markerS14: [12.8, 0], markerN14: [12.8, 32] }[name];
      const { x, y } = labelSpot(STANDARD_COURT, { name, x: at[0]!, y: at[1]! });
      expect(x > 0 && x < STANDARD_COURT.width && y > 0 && y < STANDARD_COURT.length).toBe(true);
    }
  });
});

describe('the boundary in words', () => {
  it('claims no difference of the diagonals within 1.96 standard deviations: 39.2 mm of 20 mm', () => {
    const [hidden] = saySquareness({ diagonals: 0.039, diagonalsSd: 0.02, width: 0, widthSd: 0.2 });
    const [shown] = saySquareness({ diagonals: -0.04, diagonalsSd: 0.02, width: 0, widthSd: 0.2 });
    expect(hidden).toContain('no difference');
    expect(shown).toContain('40 mm shorter');
  });
  it('says that the lawn is smaller when the picture measures more than the tape', () => {
    expect(sayScale({ ratio: 1.02, sd: 0.002 })[0]).toContain('2.00 % smaller');
    expect(sayScale({ ratio: 1.002, sd: 0.002 })[0]).toContain('agrees');
  });
  it('names the sides only when their paint differs', () => {
    const side = (name: 'south' | 'west', width: number) => ({ side: name, width });
    expect(sayPaint([side('south', 0.039), side('west', 0.0391)])).toEqual(['The paint is 39 mm wide.']);
    expect(sayPaint([side('south', 0.039), side('west', 0.05)])[0]).toContain('50 mm wide on the west');
    expect(sayPaint(undefined)).toEqual([]);
  });
});

describe('what a check asks of the server', () => {
  const club = { certainty: 0.99, lawn: { width: 25.6032, length: 32.004, unevenness: 0.005 } };
  const draft: Pick<Draft, 'pins' | 'hoopScored' | 'balls' | 'court'> = {
    pins: {},
    hoopScored: null,
    balls: ['blue'],
  };
  it('leaves tolerance and tape out when nothing was said', () => {
    expect(marksOf(draft, club)).not.toHaveProperty('tolerance');
    expect(marksOf(draft, club)).not.toHaveProperty('taped');
  });
  it('carries tolerance, size and tape, and keeps the club’s unevenness', () => {
    const taped = { from: 'hoop5', to: 'hoop6', distance: 12.8 } as const;
    const court = { tolerance: 0.05, size: { width: 20, length: 25 }, taped };
    expect(marksOf({ ...draft, court }, club)).toMatchObject({
      tolerance: 0.05,
      taped,
      lawn: { width: 20, length: 25, unevenness: 0.005 },
    });
  });
  it('is sent under a new key when the question changes', () => {
    const before = { ...draft, past: [], state: 'read', sendKey: 'a' } as unknown as Draft;
    const after = changeMarks(before, { court: { tolerance: 0.05, size: null, taped: null } }, 'b');
    expect([after.sendKey, after.state]).toEqual(['b', 'marking']);
  });
  it('offers 14 yd, 12.802 m, between hoops 5 and 6 (7 yd each from the peg)', () => {
    expect(trueDistance('hoop5', 'hoop6')).toBe(12.802);
  });
});
