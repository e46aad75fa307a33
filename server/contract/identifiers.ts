import { z } from 'zod';

/** The id of anything stored: a random UUID in lower case. It names a row and, for a photo, a folder; it never comes from an upload's name. */
export const IdSchema = z
  .string()
  .regex(/^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/, 'an id as the service gave it');

/** An instant in UTC, ISO 8601 with milliseconds. */
export const InstantSchema = z.iso.datetime({ precision: 3 });

/** A calendar day in UTC, `YYYY-MM-DD`. */
export const DaySchema = z.iso.date();

/** Whether `text` has the form of an id. */
export const isId = (text: unknown): text is string => IdSchema.safeParse(text).success;

/** A short free text that a person typed, shown as it is: at most `longest` characters, without control characters. */
export const plainText = (longest: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(longest)
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is refused
    .regex(/^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]*$/, 'text without control characters');
