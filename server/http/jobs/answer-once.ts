import { createHash } from 'node:crypto';
import type { Request } from 'express';
import { InputError } from '../../errors.ts';
import type { KeptAnswer, Store, Tables } from '../../store/store.ts';

/** An answer about to be given, and what is to be kept together with it. */
export type Prepared = {
  readonly status: number;
  readonly body: unknown;
  /** Keeps what the answer promises; runs in one transaction with the key. */
  readonly keep: (tables: Tables) => Promise<void>;
  /** Takes back what was done outside the store when `keep` failed. */
  readonly undo?: () => Promise<void>;
};
/** What is sent. */
export type Given = { readonly status: number; readonly body: unknown };
/** A request with the key it came with, if any, and a digest of all it asks. */
export type Asked = {
  readonly scope: string;
  readonly key: string | undefined;
  readonly fingerprint: string;
};

const KEY = /^[\x21-\x7e]{8,100}$/;

/** The Idempotency-Key of a request; undefined without one. Throws an InputError when it is of no use. */
export const keyOf = (request: Request): string | undefined => {
  const key = request.get('idempotency-key');
  if (key !== undefined && !KEY.test(key))
    throw new InputError(
      'bad-key',
      'The Idempotency-Key needs 8 to 100 visible characters; send a random UUID.',
      400,
    );
  return key;
};

/** Digest of the parts of a request. Each part is preceded by its length, so that no two lists of parts look alike. */
export const fingerprintOf = (...parts: readonly (string | Uint8Array)[]): string => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(`${part.length}:`).update(part);
  return hash.digest('hex');
};

const sameRequest = (answer: KeptAnswer, asked: Asked): Given => {
  if (answer.fingerprint !== asked.fingerprint)
    throw new InputError(
      'key-used',
      'This Idempotency-Key was used for another request; send a new key with new content.',
      422,
    );
  return { status: answer.status, body: answer.body };
};

/** Gives each key's answer once. */
export type AnswerOnce = (asked: Asked, prepare: () => Promise<Prepared>) => Promise<Given>;

/**
 * The same key gets the same answer and is worked on once: from the store when it was answered before, by waiting when it is being worked
 * on. Answer and key are kept in one transaction, so that no crash leaves one without the other.
 */
export const openAnswers = (store: Store, now: () => Date): AnswerOnce => {
  const underWay = new Map<string, Promise<KeptAnswer>>();

  const work = async (asked: Asked, prepare: () => Promise<Prepared>): Promise<KeptAnswer> => {
    const prepared = await prepare();
    const { status, body } = prepared;
    const answer = { ...asked, key: asked.key ?? '', status, body, createdAt: now().toISOString() };
    try {
      await store.atomically(async (tables) => {
        await prepared.keep(tables);
        if (asked.key !== undefined) await tables.answers.put(answer);
      });
    } catch (error) {
      await prepared.undo?.();
      throw error;
    }
    return answer;
  };

  return async (asked, prepare) => {
    if (asked.key === undefined) return work(asked, prepare);
    const name = `${asked.scope} ${asked.key}`;
    const waiting = underWay.get(name);
    if (waiting) return sameRequest(await waiting, asked);
    const working = (async () =>
      (await store.answers.get(asked.scope, asked.key!)) ?? (await work(asked, prepare)))();
    underWay.set(name, working);
    try {
      return sameRequest(await working, asked);
    } finally {
      underWay.delete(name);
    }
  };
};
