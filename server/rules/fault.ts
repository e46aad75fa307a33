import type { BallColour } from '../lawn/colours.ts';
import { ballAfter, isOpponent } from './ball-order.ts';
import { type Edition, ruleOf } from './editions.ts';
import type { Standing } from './hoop-order.ts';
import type { Ruling } from './ruling.ts';

/** What the opponents choose after a fault: leave the balls where the fault put them, or have them put back. */
export const FAULT_CHOICES = ['leave', 'putBack'] as const;
export type FaultChoice = (typeof FAULT_CHOICES)[number];

/** Every ground of a ruling on a fault. */
export const FAULT_CODES = ['putBack', 'left', 'leftOpponentsScore'] as const;
export type FaultCode = (typeof FAULT_CODES)[number];

/**
 * What a fault changes. `points`: balls whose points of the faulty stroke count; `next`: the ball played next; `excuses`: balls left where
 * the fault put them arrived by it, which excuses them from offside on the opponents' side only.
 */
export type FaultRuling = Ruling<FaultCode> & {
  readonly putBack: boolean;
  readonly points: readonly BallColour[];
  readonly next: BallColour;
  readonly excuses: 'opponents' | 'nobody';
  readonly standing: Standing;
};

/**
 * What follows a fault of the side of `offender` in the stroke of `striker` in which the balls `scored` scored. No point counts for the
 * side at fault; the turn ends and the order goes on; when the balls are left, points of the opponents' balls count. From memory, to be
 * checked against the club's rule book. That a ball left where the opponents' fault put it is excused from offside: common practice.
 */
export const judgeFault = (given: {
  readonly edition: Edition;
  readonly striker: BallColour;
  readonly offender: BallColour;
  readonly scored: readonly BallColour[];
  readonly choice: FaultChoice;
}): FaultRuling => {
  const { edition, striker, offender, scored, choice } = given;
  const points = choice === 'leave' ? scored.filter((ball) => isOpponent(offender, ball)) : [];
  const shared = {
    rule: ruleOf('fault', edition),
    edition,
    points,
    next: ballAfter(striker),
    standing: 'fromMemory',
  } as const;
  if (choice === 'putBack')
    return {
      ...shared,
      code: 'putBack',
      putBack: true,
      excuses: 'nobody',
      reason: `The balls are put back, no point counts, and ${shared.next} plays.`,
    };
  return {
    ...shared,
    code: points.length > 0 ? 'leftOpponentsScore' : 'left',
    putBack: false,
    excuses: 'opponents',
    reason:
      points.length > 0
        ? `The balls are left, so the point of ${points.join(' and ')} counts; the side of ${offender} scores nothing, and ${shared.next} plays.`
        : `The balls are left, no point counts for the side of ${offender}, and ${shared.next} plays.`,
  };
};
