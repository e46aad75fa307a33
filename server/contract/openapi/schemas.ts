import { z } from 'zod';
import { CombinationRequestSchema, CombinationSchema } from '../combine.ts';
import { CourtCheckSchema } from '../court-check.ts';
import { BegunSchema, GameEventSchema, GameFileSchema } from '../game.ts';
import { AdditionSchema, GameHeadSchema, GameSchema } from '../game-request.ts';
import { AnswerSchema, QuestionSchema } from '../judge.ts';
import { MarksSchema } from '../marks.ts';
import {
  GuessRequestSchema,
  GuessSchema,
  PhotoSchema,
  SampleSchema,
  TakenSampleSchema,
  TraceRequestSchema,
  TraceSchema,
} from '../photo.ts';
import { ReadingSchema } from '../reading.ts';
import {
  CheckRecordSchema,
  CorrectionsSchema,
  LawnRecordSchema,
  ReadingRequestSchema,
  RecordPageSchema,
  RecordSchema,
  RecordSummarySchema,
  SightingRecordSchema,
} from '../record.ts';
import { ErrorSchema, HealthSchema, ProgressSchema } from '../service.ts';
import { SettingsSchema } from '../settings.ts';
import { SightingSchema } from '../sight.ts';
import {
  ClubLawnSchema,
  LawnChangeSchema,
  LawnInputSchema,
  SpotChangeSchema,
  SpotInputSchema,
  SpotSchema,
} from '../spot.ts';
import { StandsRequestSchema, StandsSchema } from '../stands.ts';

/** Schemas of what is sent to the service, by name. Fields with a default may be left out. */
export const REQUESTS = {
  Marks: MarksSchema,
  ReadingRequest: ReadingRequestSchema,
  Corrections: CorrectionsSchema,
  CombinationRequest: CombinationRequestSchema,
  TraceRequest: TraceRequestSchema,
  GuessRequest: GuessRequestSchema,
  StandsRequest: StandsRequestSchema,
  Question: QuestionSchema,
  SettingsInput: SettingsSchema,
  SpotInput: SpotInputSchema,
  SpotChange: SpotChangeSchema,
  LawnInput: LawnInputSchema,
  LawnChange: LawnChangeSchema,
  GameBeginning: BegunSchema,
  GameEvent: GameEventSchema,
  GameFile: GameFileSchema,
  GameAddition: AdditionSchema,
} as const;

/** Schemas of what the service answers, by name. */
export const ANSWERS = {
  Error: ErrorSchema,
  Photo: PhotoSchema,
  Trace: TraceSchema,
  Guess: GuessSchema,
  Stands: StandsSchema,
  Reading: ReadingSchema,
  Sighting: SightingSchema,
  CourtCheck: CourtCheckSchema,
  LawnRecord: LawnRecordSchema,
  SightingRecord: SightingRecordSchema,
  CheckRecord: CheckRecordSchema,
  Record: RecordSchema,
  RecordSummary: RecordSummarySchema,
  RecordPage: RecordPageSchema,
  Combination: CombinationSchema,
  Answer: AnswerSchema,
  Settings: SettingsSchema,
  Spot: SpotSchema,
  Lawn: ClubLawnSchema,
  Sample: SampleSchema,
  TakenSample: TakenSampleSchema,
  Game: GameSchema,
  GameHead: GameHeadSchema,
  Progress: ProgressSchema,
  Health: HealthSchema,
} as const;

/** Name of a schema of the description. */
export type SchemaName = keyof typeof REQUESTS | keyof typeof ANSWERS;

const uri = (name: string): string => `#/components/schemas/${name}`;

const exported = (schemas: Readonly<Record<string, z.ZodType>>, io: 'input' | 'output') => {
  const registry = z.registry<{ id: string }>();
  for (const [id, schema] of Object.entries(schemas)) registry.add(schema, { id });
  const { schemas: found } = z.toJSONSchema(registry, {
    io,
    uri,
    unrepresentable: 'any',
    target: 'draft-2020-12',
  });
  return Object.entries(found).map(([name, { $schema: _, $id: __, ...schema }]) => [name, schema] as const);
};

/** All schemas as JSON Schema 2020-12, the dialect of OpenAPI 3.1, made by the same library that checks every request. */
export const schemaComponents = (): Record<string, object> =>
  Object.fromEntries([...exported(REQUESTS, 'input'), ...exported(ANSWERS, 'output')]);

/** A reference to the schema `name`. */
export const ref = (name: SchemaName): { $ref: string } => ({ $ref: uri(name) });
