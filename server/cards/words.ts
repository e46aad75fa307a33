import type { BallVerdict } from '../contract/judge.ts';
import type { BallCall } from '../contract/reading.ts';
import type { UnitSystem } from '../contract/settings.ts';
import { chance, giveOrTake } from '../contract/words/chances.ts';
import { margin, wholeMillimetres } from '../contract/words/lengths.ts';
import type { BallColour } from '../lawn/colours.ts';

/** "Red" for `red`. */
export const ballName = (colour: BallColour): string => colour[0]!.toUpperCase() + colour.slice(1);

/** "20 June 2026, 12:01 UTC". */
export const instantWords = (instant: string): string =>
  `${new Date(instant).toLocaleString('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    timeZone: 'UTC',
  })} UTC`.replace(' at ', ', ');

/** "give or take 33 mm". Half the width of the band that holds 19 in 20. */
const spreadWords = (sd: number): string => `give or take ${wholeMillimetres(giveOrTake(sd))} mm`;

/** How far, in words, on which side. */
const marginWords = ({ beyond, sd }: BallCall, units: UnitSystem): string =>
  beyond >= 0
    ? `${margin(beyond, units)} past the line, ${spreadWords(sd)}`
    : `${margin(beyond, units)} short of being wholly past the line, ${spreadWords(sd)}`;

/** The call on one ball in a few words. */
export const lieWords = ({ lies }: Pick<BallCall, 'lies'>): string =>
  ({
    beyond: 'all of it is past the line',
    short: 'not all of it is past the line',
    tooClose: 'too close to call',
  })[lies];

/** The margin with its uncertainty and the probability: "34 mm (1⅜ in) past the line, give or take 33 mm; all of it across: 97 in 100". */
export const measuredWords = (call: BallCall, units: UnitSystem): string =>
  `${marginWords(call, units)}; all of it across: ${chance(call.probability)}`;

const VERDICTS: Readonly<Record<BallVerdict['verdict'], string>> = {
  onside: 'Onside',
  offside: 'Offside',
  excused: 'Not offside',
  tooClose: 'Undecided',
  historyNeeded: 'Offside unless excused',
};

/** The rules' verdict on one ball with its reason and rule. */
export const verdictWords = ({ verdict, reason, rule }: BallVerdict): string =>
  `${VERDICTS[verdict]}. ${reason} ${rule.charAt(0).toUpperCase()}${rule.slice(1)}.`;

/** The caution that stands on everything printed. */
export const CAUTION =
  'This reading helps whoever decides: the referee in charge, the rules and local conditions in force decide, and may always test on the lawn.';
