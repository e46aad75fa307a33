import type { MarksInput } from '../../server/contract/marks.ts';
import type { Guess, Photo, Sample, Trace } from '../../server/contract/photo.ts';
import { request } from './request.ts';

/** Sends a photo; the same key sends it once however often it is called. */
export const sendPhoto = (photo: Blob, name: string, key: string, signal?: AbortSignal): Promise<Photo> => {
  const form = new FormData();
  form.set('photo', photo, name);
  return request('/api/photos', { method: 'POST', form, key, signal });
};

/** Size and origin of a stored photo. */
export const photoFacts = (id: string): Promise<Photo> => request(`/api/photos/${id}/facts`);

/** Address of a stored photo's upright picture. */
export const photoAddress = (id: string): string => `/api/photos/${id}`;

/** The boundary lines near the marks, and their crossings. */
export const traceLines = (photoId: string, marks: MarksInput, signal?: AbortSignal): Promise<Trace> =>
  request('/api/traces', { method: 'POST', json: { photoId, marks }, signal });

/** Where the white lines alone suggest the corners to be; with a spot, where its last picture says they are. */
export const guessPoints = (photoId: string, spot: string | null): Promise<Guess> =>
  request('/api/guesses', { method: 'POST', json: { photoId, ...(spot && { spot }) } });

/** The sample pictures that come with the program. */
export const listSamples = async (): Promise<Sample[]> => {
  const answer = await request<Sample[] | { samples: Sample[] }>('/api/samples');
  return Array.isArray(answer) ? answer : answer.samples;
};

/** Makes a sample an ordinary photo of this installation. */
export const takeSample = (name: string, key: string): Promise<{ photoId: string; marks: MarksInput }> =>
  request(`/api/samples/${encodeURIComponent(name)}`, { method: 'POST', key });
