import { describe, expect, it } from 'vitest';
import type { FoundBall } from '../../server/contract/reading.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { halfwayLine } from '../../server/lawn/halfway-lines.ts';
import { callOne, SURE_COLOUR } from '../../server/reading/call-balls.ts';

const LINE = halfwayLine(STANDARD_COURT, 1);

/** A ball that lies metres past any line or short of it, known to a centimetre. */
const ball = (more: Partial<FoundBall>): FoundBall => ({
  colour: 'red',
  ...{ x: 3, y: 3, sdX: 0.01, sdY: 0.01, correlation: 0 },
  ...{ image: [100, 100], imageCovariance: [0.04, 0, 0.04], confidence: 1, visible: 1, origin: 'found' },
  ...more,
});

const lies = (more: Partial<FoundBall>): string => callOne(ball(more), LINE, 0.99).lies;

describe('a call', () => {
  it('is firm for a ball far from the line whose colour and outline are seen', () => {
    expect(lies({})).not.toBe('tooClose');
  });

  it('needs to know which ball it is', () => {
    expect(lies({ confidence: SURE_COLOUR })).toBe(lies({}));
    expect(lies({ confidence: SURE_COLOUR - 0.01 })).toBe('tooClose');
    // A firm call may be wrong once in a hundred times; of 20 balls named with 0.97 to 0.98 two were something else.
    expect(SURE_COLOUR).toBeGreaterThanOrEqual(0.98);
  });

  it('needs half of the outline', () => {
    expect(lies({ visible: 0.51 })).toBe(lies({}));
    expect(lies({ visible: 0.49 })).toBe('tooClose');
  });

  it('takes the word of whoever tapped a ball in', () => {
    expect(lies({ origin: 'placed', confidence: 0.2, visible: 0.1 })).toBe(lies({}));
  });
});
