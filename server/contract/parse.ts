import type { z } from 'zod';
import { InputError } from '../errors.ts';
import { explainIssue } from './explain-issue.ts';
import { type Marks, MarksSchema } from './marks.ts';

/**
 * `value` as `schema` describes it, defaults filled in. Throws an InputError (422) whose one sentence says what was found and what is
 * needed; `what` names the input in it, for example "marks".
 */
export const parseInput = <S extends z.ZodType>(schema: S, value: unknown, what: string): z.output<S> => {
  const parsed = schema.safeParse(value);
  if (parsed.success) return parsed.data;
  const { code, message } = explainIssue(parsed.error, value, what);
  throw new InputError(code, message);
};

/** The JSON value that `text` holds. Throws an InputError (400, `not-json`) that names `what`. */
export const parseJson = (text: string, what: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    throw new InputError('not-json', `The ${what} could not be read as JSON; send one JSON object.`, 400);
  }
};

/** Checked marks from a JSON value. Throws an InputError. */
export const parseMarks = (value: unknown): Marks => parseInput(MarksSchema, value, 'marks');

/** Checked marks from the text of a marks file or form field. Throws an InputError. */
export const parseMarksText = (text: string): Marks => parseMarks(parseJson(text, 'marks'));
