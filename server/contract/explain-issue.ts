import type { z } from 'zod';
import { BALL_COLOURS } from '../lawn/colours.ts';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** `marks.points.corner1[0]` for the path of an issue. */
const nameOf = (what: string, path: Path): string =>
  path.reduce<string>(
    (name, key) => (typeof key === 'number' ? `${name}[${key}]` : `${name}.${String(key)}`),
    what,
  );

const valueAt = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>((inner, key) => (inner as Record<PropertyKey, unknown> | null)?.[key], value);

/** What was found, short enough for a sentence. */
const found = (value: unknown): string => {
  if (value === undefined) return 'nothing';
  if (typeof value === 'string') return `the text "${value.slice(0, 40)}"`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (value !== null && typeof value === 'object') return 'an object';
  return String(value);
};

const KINDS: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a pair of numbers',
  object: 'an object',
  record: 'an object',
};

const bounds = (issue: Issue & { code: 'too_small' | 'too_big' }): string => {
  const least = issue.code === 'too_small';
  const limit = String(least ? issue.minimum : issue.maximum);
  const many = issue.origin === 'array' ? ' entries' : issue.origin === 'string' ? ' characters' : '';
  if (issue.inclusive === false) return `${least ? 'more' : 'less'} than ${limit}`;
  return `${least ? 'at least' : 'at most'} ${limit}${many}`;
};

/** What is needed in place of what was found. */
const needed = (issue: Issue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return KINDS[issue.expected] ?? issue.expected;
    case 'too_small':
    case 'too_big':
      return bounds(issue);
    case 'invalid_value':
      return issue.values.length === 1 ? String(issue.values[0]) : `one of ${issue.values.join(', ')}`;
    case 'invalid_format':
      return issue.format === 'regex' ? issue.message : `a valid ${issue.format}`;
    case 'unrecognized_keys':
      return `no field ${issue.keys.join(', ')}`;
    default:
      return issue.message.replace(/^Invalid discriminator value. Expected /, '');
  }
};

/** The most telling issue: of a union's, those of the branch that came furthest. */
const deepest = (issues: readonly Issue[], above: Path = []): { issue: Issue; path: Path } => {
  const issue = issues[0]!;
  const path = [...above, ...issue.path];
  const branches = issue.code === 'invalid_union' ? issue.errors.filter((branch) => branch.length > 0) : [];
  const branch = branches.toSorted((a, b) => (b[0]?.path.length ?? 0) - (a[0]?.path.length ?? 0))[0];
  return branch ? deepest(branch, path) : { issue, path };
};

const unknownPoint = (name: string) => ({
  code: 'unknown-point',
  message: `The marks name the point "${name}", which the lawn does not have; use corner1 to corner4, peg, hoop1 to hoop6, or a marker such as markerW.`,
});

const unknownColour = (name: string) => ({
  code: 'unknown-colour',
  message: `No ball is "${name}"; the colours are ${BALL_COLOURS.join(', ')}.`,
});

const noSuchHoop = (number: string) => ({
  code: 'no-such-hoop',
  message: `Hoop ${number} was named as scored, but the points of a game are 1 to 13; give one of these or leave it out.`,
});

/** The trade's own faults get codes and words of their own; null when the issue is an ordinary one. */
const ofTheTrade = (path: Path, issue: Issue, value: unknown) => {
  // A schema's own check may bring its code and its whole sentence.
  if (issue.code === 'custom' && typeof issue.params?.code === 'string')
    return { code: issue.params.code, message: issue.message };
  const last = path.at(-1);
  if (last === 'hoopScored' && typeof value === 'number') return noSuchHoop(String(value));
  if (issue.code === 'unrecognized_keys') {
    const key = String(issue.keys[0]).slice(0, 40);
    if (last === 'points') return unknownPoint(key);
    return last === 'balls' || last === 'arrivedBy' ? unknownColour(key) : null;
  }
  const ofColour = issue.code === 'invalid_value' && issue.values.includes(BALL_COLOURS[0]);
  return ofColour && typeof value === 'string' ? unknownColour(value.slice(0, 40)) : null;
};

/**
 * A failed parse as a stable code and one sentence: what was found where, and what is needed. `what` names the input; the code is
 * `WHAT-invalid` unless the fault has a code of its own (`no-such-hoop`, `unknown-point`, `unknown-colour`).
 */
export const explainIssue = (
  error: z.core.$ZodError,
  input: unknown,
  what: string,
): { code: string; message: string } => {
  const { issue, path } = deepest(error.issues);
  const value = valueAt(input, path);
  return (
    ofTheTrade(path, issue, value) ?? {
      code: `${what.replaceAll(' ', '-')}-invalid`,
      message: `Expected ${needed(issue)} for ${nameOf(what, path)} but received ${found(value)}.`,
    }
  );
};
