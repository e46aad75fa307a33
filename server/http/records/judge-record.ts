import type { ArrivedBy, OffsideAnswer } from '../../contract/judge.ts';
import type { LawnRecord } from '../../contract/record.ts';
import type { Settings } from '../../contract/settings.ts';
import { type BallColour, FIRST_COLOURS } from '../../lawn/colours.ts';
import type { Judge } from '../deps.ts';

const isFirst = (colour: BallColour): boolean => (FIRST_COLOURS as readonly BallColour[]).includes(colour);

/** The rules' verdict on the balls of one game. Its margin and uncertainty are those of the call, which was measured across the line. */
const judgeSet = (
  judge: Judge,
  record: LawnRecord,
  settings: Settings,
  first: boolean,
): OffsideAnswer['balls'] => {
  const { call, marks } = record;
  const balls = call!.balls.filter(({ colour }) => isFirst(colour) === first);
  if (balls.length === 0) return [];
  const resting = balls.map(({ colour, sd }) => {
    const { x, y } = record.balls.find((ball) => ball.colour === colour)!;
    const arrivedBy: ArrivedBy | undefined = record.arrivedBy[colour];
    return [colour, { x, y, sd, ...(arrivedBy && { arrivedBy }) }];
  });
  const answer = judge({
    kind: 'offside',
    edition: settings.edition,
    hoopScored: call!.hoopScored,
    points: 13,
    certainty: marks.certainty,
    lawn: marks.lawn,
    balls: Object.fromEntries(resting),
  }) as OffsideAnswer;
  return answer.balls.map((verdict) => {
    const called = balls.find(({ colour }) => colour === verdict.colour)!;
    return { ...verdict, beyond: called.beyond, sd: called.sd, probability: called.probability };
  });
};

/**
 * `record` with the verdict of the rules. The two sets of colours are two games on one lawn, and are judged apart. A ball that the call
 * does not decide, for its colour is unsure, stays undecided here.
 */
export const judgeRecord = (
  { judge }: { readonly judge: Judge },
  record: LawnRecord,
  settings: Settings,
): LawnRecord => {
  const { call } = record;
  if (call === undefined) return { ...record, verdict: null };
  const judged = [true, false].flatMap((first) => judgeSet(judge, record, settings, first));
  const balls = judged.map((verdict) => {
    const called = call.balls.find(({ colour }) => colour === verdict.colour)!;
    if (called.lies !== 'tooClose' || verdict.lies === 'tooClose') return verdict;
    return {
      ...verdict,
      lies: 'tooClose' as const,
      verdict: 'tooClose' as const,
      reason: `It is not certain enough which ball this is, or where it lies: ${called.colour} stays undecided until you confirm it.`,
    };
  });
  return { ...record, verdict: { edition: settings.edition, balls } };
};
