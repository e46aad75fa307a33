/** Columns of the database. Instants are UTC in ISO 8601 as text, so that they sort alike everywhere; documents are JSON with a format version. */
export type Database = {
  photos: {
    id: string;
    created_at: string;
    width: number;
    height: number;
    format: string;
    bytes: number;
    focal35: number | null;
    focal_pixels: number | null;
    taken_at: string | null;
  };
  records: {
    id: string;
    kind: string;
    revision: number;
    created_at: string;
    updated_at: string;
    photo_id: string;
    game_id: string | null;
    spot_id: string | null;
    format: number;
    summary: string;
    /** The note, folded for searching. */
    search: string;
  };
  record_revisions: {
    record_id: string;
    revision: number;
    kept_at: string;
    format: number;
    document: string;
  };
  spots: NamedTable;
  lawns: NamedTable;
  settings: { id: number; format: number; document: string };
  games: {
    id: string;
    title: string;
    created_at: string;
    updated_at: string;
    version: number;
    format: number;
    summary: string;
    /** The title, folded for searching. */
    search: string;
  };
  game_events: { game_id: string; number: number; kept_at: string; format: number; document: string };
  answers: {
    scope: string;
    key: string;
    fingerprint: string;
    status: number;
    created_at: string;
    format: number;
    document: string;
  };
};

/** A table of small named things. */
export type NamedTable = { id: string; name: string; search: string; format: number; document: string };
