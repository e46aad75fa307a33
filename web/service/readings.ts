import type { MarksInput } from '../../server/contract/marks.ts';
import type { Corrections, PhotoRecord, RecordKind, RecordPage } from '../../server/contract/record.ts';
import { request } from './request.ts';

const PATHS: Readonly<Record<RecordKind, string>> = {
  lawn: '/api/readings',
  sighting: '/api/sightings',
  check: '/api/checks',
};

/** A photo's marks and labels, to be read. */
export type ReadingOrder = {
  readonly kind: RecordKind;
  readonly photoId: string;
  readonly marks: MarksInput;
  readonly game: string | null;
  readonly spot: string | null;
};

/** Reads a stored photo. The same key gives the same answer, so it may be sent again; `progressKey` names the channel that tells how far it is. */
export const readPhoto = (
  { kind, ...order }: ReadingOrder,
  key: string,
  progressKey: string,
  signal?: AbortSignal,
): Promise<PhotoRecord> => request(PATHS[kind], { method: 'POST', json: order, key, progressKey, signal });

/** One stored record of any kind. */
export const getReading = (id: string): Promise<PhotoRecord> => request(`/api/readings/${id}`);

/** What to list; `q` is searched on the server where it can be. */
export type ReadingsQuery = {
  readonly from?: string;
  readonly to?: string;
  readonly game?: string;
  readonly spot?: string;
  readonly kind?: RecordKind;
  readonly before?: string;
};

/** One page of the list, the newest first. */
export const listReadings = (query: ReadingsQuery): Promise<RecordPage> => {
  const search = new URLSearchParams(Object.entries(query).filter(([, value]) => value));
  return request(`/api/readings?${search}`);
};

/** Corrects a record; the answer is the record evaluated again. */
export const correctReading = (id: string, change: Corrections): Promise<PhotoRecord> =>
  request(`/api/readings/${id}`, { method: 'PATCH', json: change });

/** Deletes a record, and its photo when nothing else uses it. */
export const deleteReading = (id: string): Promise<void> =>
  request(`/api/readings/${id}`, { method: 'DELETE' });

/** Address of a record's card or picture; `withPhoto` false leaves photo and people out. */
export const cardAddress = (
  id: string,
  form: 'card.png' | 'card.pdf' | 'card.txt',
  withPhoto: boolean,
): string => `/api/readings/${id}/${form}${withPhoto ? '' : '?photo=0'}`;
/** Address of a record's small picture. */
export const thumbnailAddress = (id: string): string => `/api/readings/${id}/thumbnail`;
