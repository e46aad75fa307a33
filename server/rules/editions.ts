/** Editions of the rules that are judged, by their year: the 4th (2013) and the 6th (2022). */
export const EDITIONS = ['2013', '2022'] as const;
/** An edition of the rules by its year. */
export type Edition = (typeof EDITIONS)[number];

const ORDINALS: Readonly<Record<Edition, string>> = { '2013': '4th', '2022': '6th' };

/** The edition as it is spoken of: "6th edition (2022)". */
export const editionName = (edition: Edition): string => `${ORDINALS[edition]} edition (${edition})`;

/** A clause named with its edition: "rule 10.5 of the 6th edition (2022)". */
export const clauseName = (clause: string, edition: Edition): string =>
  `rule ${clause} of the ${editionName(edition)}`;

/**
 * Number of each rule in each edition, from the tables of contents at croquet.org.uk (4th, 5th and 6th edition; the 6th keeps the
 * 5th's numbers but exchanges 17 and 18).
 */
export const RULE_NUMBERS = {
  start: { '2013': '5', '2022': '5' },
  score: { '2013': '7', '2022': '7' },
  offside: { '2013': '10', '2022': '8' },
  wrongBall: { '2013': '11', '2022': '10' },
  fault: { '2013': '13', '2022': '11' },
  penaltyArea: { '2013': '10', '2022': '17' },
} as const satisfies Record<string, Record<Edition, string>>;

/** Clause of `subject` with its edition. */
export const ruleOf = (subject: keyof typeof RULE_NUMBERS, edition: Edition): string =>
  clauseName(RULE_NUMBERS[subject][edition], edition);
