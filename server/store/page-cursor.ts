import { DaySchema, IdSchema, InstantSchema } from '../contract/identifiers.ts';
import type { RecordQuery } from '../contract/record.ts';
import { InputError } from '../errors.ts';

/** Where a page of the list ends: everything older than this instant, or as old with a smaller id. */
export type Cursor = { readonly at: string; readonly id: string };

/** The cursor as a client hands it back. */
export const makeCursor = ({ at, id }: Cursor): string => `${at}_${id}`;

/** Reads what `makeCursor` made. Throws an InputError when it is not such a text. */
export const parseCursor = (text: string): Cursor => {
  const [at, id] = text.split('_');
  if (InstantSchema.safeParse(at).success && IdSchema.safeParse(id).success) return { at: at!, id: id! };
  throw new InputError(
    'no-such-page',
    `The list has no page "${text.slice(0, 60)}"; pass on the "next" of the page before as it is.`,
  );
};

const DAY_MS = 86_400_000;

/** The instants that a query admits: `from` included, `to` not. A day is a day of UTC. */
export const periodOf = (query: RecordQuery): { from: string | undefined; to: string | undefined } => {
  if (query.day === undefined) return { from: query.from, to: query.to };
  const start = Date.parse(`${DaySchema.parse(query.day)}T00:00:00.000Z`);
  return { from: new Date(start).toISOString(), to: new Date(start + DAY_MS).toISOString() };
};
