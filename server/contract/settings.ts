import { z } from 'zod';
import { BALL_COLOURS } from '../lawn/colours.ts';
import { METRES_PER_YARD } from '../units/numbers.ts';
import { DEFAULT_TOLERANCE } from './court-check.ts';
import { plainText } from './identifiers.ts';
import { EditionSchema } from './judge.ts';
import { ColourSchema, DEFAULT_CERTAINTY, LawnSchema } from './marks.ts';

/** How lengths are shown: yards, feet and inches, or metres. */
export const UNIT_SYSTEMS = ['imperial', 'metric'] as const;
export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

/** Which balls are looked for: the first colours, the second colours, or both. */
export const BALL_SETS = ['first', 'second', 'both'] as const;

/** Letters that name the balls on plans: B R K Y and G P N W unless the club prefers others. */
export const DEFAULT_LETTERS = {
  blue: 'B',
  red: 'R',
  black: 'K',
  yellow: 'Y',
  green: 'G',
  pink: 'P',
  brown: 'N',
  white: 'W',
} as const satisfies Record<(typeof BALL_COLOURS)[number], string>;

/** One letter a colour, no two alike. */
export const LettersSchema = z
  .record(ColourSchema, z.string().regex(/^\p{L}$/u, 'one letter'))
  .refine((letters) => new Set(Object.values(letters)).size === BALL_COLOURS.length, {
    message: 'letters of which no two are alike',
  });
export type Letters = z.output<typeof LettersSchema>;

/** What the club chose. Lengths in metres. */
export const SettingsSchema = z.object({
  units: z.enum(UNIT_SYSTEMS).default('imperial'),
  edition: EditionSchema.default('2022'),
  certainty: z.number().min(0.5).lt(1).default(DEFAULT_CERTAINTY),
  /** Radius of the penalty areas: 1 yd by one published description, half of it by another; a club checks its rule book. */
  penaltyRadius: z.number().min(0.1).max(3).default(METRES_PER_YARD),
  /** Tolerance of a court's setting. */
  tolerance: z.number().min(0.001).max(1).default(DEFAULT_TOLERANCE),
  ballSet: z.enum(BALL_SETS).default('both'),
  letters: LettersSchema.default({ ...DEFAULT_LETTERS }),
  lawn: LawnSchema.extend({ name: plainText(80).default('Lawn 1') }).prefault({}),
});
export type Settings = z.output<typeof SettingsSchema>;

/** The settings of a new installation. */
export const defaultSettings = (): Settings => SettingsSchema.parse({});
