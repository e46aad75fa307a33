/** A stored document was written in a form that this program does not read. */
export class StoredFormatError extends Error {
  readonly code = 'stored-format';
  constructor(what: string, found: unknown, expected: number) {
    super(
      `The stored ${what} has format version ${String(found)}, but this program reads version ${expected}; start the version of the program that wrote it, or restore a matching backup.`,
    );
    this.name = 'StoredFormatError';
  }
}

/** Versions of the stored documents. A change of form raises its number and comes with a migration. */
export const FORMATS = { record: 1, spot: 1, lawn: 1, settings: 1, game: 1, event: 1, answer: 1 } as const;
/** Kinds of stored documents. */
export type Stored = keyof typeof FORMATS;

/** A document as text for the database. */
export const encode = (document: unknown): string => JSON.stringify(document);

/** The document of a row. Throws StoredFormatError when it was written in another format version than this program's. */
export const decode = <T>(what: Stored, row: { readonly format: number; readonly document: string }): T => {
  if (row.format !== FORMATS[what]) throw new StoredFormatError(what, row.format, FORMATS[what]);
  return JSON.parse(row.document) as T;
};
