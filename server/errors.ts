/** A fault of the input: one clear sentence (what was found, what is needed, what to do), a stable code and an HTTP status. */
export class InputError extends Error {
  readonly code: string;
  readonly status: number;
  /** Further facts for a program, such as what a game's log expected. */
  readonly details: Readonly<Record<string, unknown>> | undefined;
  constructor(code: string, message: string, status = 422, details?: Readonly<Record<string, unknown>>) {
    super(message);
    this.name = 'InputError';
    this.code = code;
    this.status = status;
    this.details = details;
  }
}
