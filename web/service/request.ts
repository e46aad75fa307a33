import type { ErrorBody } from '../../server/contract/service.ts';

/** The server's answer that it will not do something: a stable code and a sentence for people. */
export class Refusal extends Error {
  readonly code: string;
  readonly status: number;
  readonly details: Readonly<Record<string, unknown>>;
  constructor(status: number, code: string, message: string, details: Record<string, unknown> = {}) {
    super(message);
    this.name = 'Refusal';
    this.status = status;
    this.code = code;
    this.details = details;
  }
}

/** No answer came: no network, the server is stopped, or the connection broke on the way. Sending again with the same key is safe. */
export class Unreachable extends Error {
  constructor() {
    super("The club's machine does not answer. What you did is kept here and goes on as soon as it answers.");
    this.name = 'Unreachable';
  }
}

/** What a request may carry: a JSON body or a form, a key that makes sending twice harmless, a channel for progress, a way to stop. */
export type Sending = {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  readonly json?: unknown;
  readonly form?: FormData;
  readonly key?: string;
  readonly progressKey?: string;
  readonly signal?: AbortSignal | undefined;
};

const headersOf = ({ json, key, progressKey }: Sending): Record<string, string> => ({
  ...(json !== undefined && { 'content-type': 'application/json' }),
  ...(key && { 'idempotency-key': key }),
  ...(progressKey && { 'x-progress-key': progressKey }),
});

const refusalOf = async (response: Response): Promise<Error> => {
  const body = (await response.json().catch(() => null)) as ErrorBody | null;
  if (body?.error)
    return new Refusal(response.status, body.error.code, body.error.message, body.error.details);
  // A gateway that stands before a stopped server answers in its own words.
  if (response.status >= 502) return new Unreachable();
  return new Refusal(
    response.status,
    'unexpected',
    `The club's machine answered ${response.status} without saying why. Try again.`,
  );
};

const answerTo = async (path: string, sending: Sending): Promise<Response> => {
  const body = sending.form ?? (sending.json === undefined ? undefined : JSON.stringify(sending.json));
  try {
    return await fetch(path, {
      method: sending.method ?? 'GET',
      headers: headersOf(sending),
      ...(body !== undefined && { body }),
      ...(sending.signal && { signal: sending.signal }),
    });
  } catch (error) {
    if (sending.signal?.aborted) throw error;
    throw new Unreachable();
  }
};

/** Asks the server and returns its JSON answer as `T`. Throws a Refusal, or Unreachable when no answer came. */
export const request = async <T>(path: string, sending: Sending = {}): Promise<T> => {
  const response = await answerTo(path, sending);
  if (!response.ok) throw await refusalOf(response);
  if (response.status === 204) return undefined as T;
  try {
    return (await response.json()) as T;
  } catch {
    throw new Unreachable();
  }
};

/** The sentence to show for any failure. */
export const sentenceOf = (error: unknown): string => {
  if (error instanceof Refusal || error instanceof Unreachable) return error.message;
  return 'Something went wrong on this page. Load it again; what you did is kept.';
};
