import { z } from 'zod';

/** The one form of every error over HTTP: a stable code, and a sentence saying what was found, what is needed and what to do. */
export const ErrorSchema = z.object({
  error: z.object({
    code: z.string(),
    message: z.string(),
    /** What the log of a game expected, or which version it has, where that helps. */
    details: z.record(z.string(), z.unknown()).optional(),
  }),
});
export type ErrorBody = z.output<typeof ErrorSchema>;

/** Steps of a job that end it. */
export const FINAL_STEPS = ['done', 'failed', 'cancelled'] as const;

/** What a job is doing, for whoever waits. */
export const ProgressSchema = z.object({ step: z.string(), message: z.string() });
export type ProgressEvent = z.output<typeof ProgressSchema>;

/** Whether the service is well. */
export const HealthSchema = z.object({
  ok: z.boolean(),
  version: z.string(),
  checks: z.record(z.string(), z.object({ ok: z.boolean(), message: z.string() })),
});
export type Health = z.output<typeof HealthSchema>;
