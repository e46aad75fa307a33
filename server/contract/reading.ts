import { z } from 'zod';
import { SIDES } from '../lawn/court.ts';
import { ColourSchema, HoopScoredSchema, ImagePairSchema } from './marks.ts';

/** A caution that goes with an answer: a stable code and a sentence for people. */
export const WarningSchema = z.object({ code: z.string(), message: z.string() });
export type Warning = z.output<typeof WarningSchema>;

/** A halfway line: `axis` coordinate `at` in metres; the next hoop lies where it is larger (1) or smaller (−1). */
export const LineSchema = z.object({
  axis: z.enum(['x', 'y']),
  at: z.number(),
  nextHoopSide: z.union([z.literal(1), z.literal(-1)]),
});

/** Where a ball lies with respect to a halfway line. */
export const LIES = ['beyond', 'short', 'tooClose'] as const;
export type Lies = (typeof LIES)[number];

/** What limits a ball's position: one standard deviation each of the two lawn coordinates, metres. */
export const BudgetSchema = z.record(
  z.enum(['marks', 'trace', 'lens', 'fit', 'unevenness', 'grass']),
  z.object({ sdX: z.number(), sdY: z.number(), sdBeyond: z.number().optional() }),
);
export type Budget = z.output<typeof BudgetSchema>;

/** One ball found, metres on the lawn and px in the photo. */
export const FoundBallSchema = z.object({
  colour: ColourSchema,
  x: z.number(),
  y: z.number(),
  sdX: z.number(),
  sdY: z.number(),
  correlation: z.number(),
  image: ImagePairSchema,
  /** Covariance of `image` from the fit alone: xx, xy, yy in px². */
  imageCovariance: z.tuple([z.number(), z.number(), z.number()]).optional(),
  confidence: z.number(),
  /** Share of the outline that was seen. */
  visible: z.number().optional(),
  /** How the place was obtained: found in the picture, or put there by the user. */
  origin: z.enum(['found', 'placed']).optional(),
  budget: BudgetSchema.optional(),
  /** Smallest standard deviations that this picture allows (Cramér–Rao bound), metres. */
  bound: z.object({ sdX: z.number(), sdY: z.number() }).optional(),
});
export type FoundBall = z.output<typeof FoundBallSchema>;

/** Ways to settle a call that is too close, best first. */
export const SETTLEMENTS = ['markMissedLine', 'alongTheLine', 'higherSpot', 'stringOnLawn'] as const;
/** What would decide a call: the action, a sentence, the spot to stand at (metres) and the standard deviation to expect there. */
export const SettlementSchema = z.object({
  action: z.enum(SETTLEMENTS),
  message: z.string(),
  spot: z.object({ x: z.number(), y: z.number(), height: z.number() }).optional(),
  expectedSd: z.number().optional(),
});
export type Settlement = z.output<typeof SettlementSchema>;

/** The call on one ball: `beyond` is how far its nearest point is past the line, metres. */
export const BallCallSchema = z.object({
  colour: ColourSchema,
  beyond: z.number(),
  sd: z.number(),
  probability: z.number(),
  lies: z.enum(LIES),
  settle: z.array(SettlementSchema).optional(),
});
export type BallCall = z.output<typeof BallCallSchema>;

/** The call on every ball found. */
export const CallSchema = z.object({
  hoopScored: HoopScoredSchema,
  nextHoop: z.number(),
  line: LineSchema,
  balls: z.array(BallCallSchema),
});
export type Call = z.output<typeof CallSchema>;

/** The solved camera as the answer shows it. */
export const CameraSchema = z.object({
  position: z.tuple([z.number(), z.number(), z.number()]),
  focal: z.number(),
  radial: z.tuple([z.number(), z.number()]),
  /** Root mean square of the refined fit's residuals in px. */
  residual: z.number(),
  traced: z.record(z.enum(SIDES), z.number()),
  /** Rotation lawn → camera, 3 × 3, row by row. */
  rotation: z.array(z.number()).length(9),
  /** Distance in px from each mark to where the solved camera sees that point, and the same on the lawn in metres. */
  marks: z.array(z.object({ name: z.string(), residual: z.number(), onLawn: z.number().nullable() })),
});

/** Covariance of the camera's nine parameters, 9 × 9 row by row, and its split by source: what a later correction needs. */
export const PoseSchema = z.object({
  covariance: z.array(z.number()).length(81),
  /** Standard deviation of the ground's height that was allowed for, metres. */
  unevenness: z.number().optional(),
  parts: z
    .object({
      marks: z.array(z.number()),
      trace: z.array(z.number()),
      lens: z.array(z.number()),
      ground: z.array(z.number()),
    })
    .optional(),
});
export type Pose = z.output<typeof PoseSchema>;

/** Answer of a lawn-wide reading. */
export const ReadingSchema = z.object({
  photo: z.object({ width: z.number(), height: z.number() }),
  camera: CameraSchema,
  balls: z.array(FoundBallSchema),
  missing: z.array(ColourSchema),
  call: CallSchema.optional(),
  warnings: z.array(WarningSchema),
  /** Kept with a reading for corrections; not printed by the command line. */
  pose: PoseSchema.optional(),
});
/** Answer of a lawn-wide reading. */
export type Reading = z.output<typeof ReadingSchema>;
