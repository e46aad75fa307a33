import type { Kysely } from 'kysely';
import type { AnswerStore, KeptAnswer } from '../store.ts';
import { decode, encode, FORMATS } from '../stored-format.ts';
import type { Database } from './schema.ts';

const get = async (db: Kysely<Database>, scope: string, key: string): Promise<KeptAnswer | null> => {
  const row = await db
    .selectFrom('answers')
    .select(['fingerprint', 'status', 'created_at', 'format', 'document'])
    .where('scope', '=', scope)
    .where('key', '=', key)
    .executeTakeFirst();
  if (row === undefined) return null;
  const { fingerprint, status } = row;
  return { scope, key, fingerprint, status, body: decode('answer', row), createdAt: row.created_at };
};

/** Answers by idempotency key in the database `db`. */
export const sqlAnswers = (db: Kysely<Database>): AnswerStore => ({
  get: (scope, key) => get(db, scope, key),
  put: async ({ scope, key, fingerprint, status, body, createdAt }) => {
    await db
      .insertInto('answers')
      .values({
        scope,
        key,
        fingerprint,
        status,
        created_at: createdAt,
        format: FORMATS.answer,
        document: encode(body),
      })
      .execute();
  },
  forgetAbout: async (id) => {
    await db.deleteFrom('answers').where('document', 'like', `%${id}%`).execute();
  },
  forgetBefore: async (instant) =>
    Number(
      (await db.deleteFrom('answers').where('created_at', '<', instant).executeTakeFirst()).numDeletedRows,
    ),
});
