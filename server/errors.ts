/** A fault of the input: one clear sentence (what was found, what is needed, what to do), a stable code and an HTTP status. */
export class InputError extends Error {
  readonly code: string;
  readonly status: number;
  constructor(code: string, message: string, status = 422) {
    super(message);
    this.name = 'InputError';
    this.code = code;
    this.status = status;
  }
}
