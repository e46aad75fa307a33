/** An expected outcome: either a value or an error with a stable code. Never thrown. */
export type Result<T, E> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: E };

/** A success carrying `value`. */
export const ok = <T>(value: T): Result<T, never> => ({ ok: true, value });

/** A failure carrying `error`. */
export const err = <E>(error: E): Result<never, E> => ({ ok: false, error });
