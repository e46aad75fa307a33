import type { Combination } from '../../server/contract/combine.ts';
import type { Stands } from '../../server/contract/stands.ts';
import { request } from './request.ts';

/** What is asked of the places around the lawn. */
export type StandsQuestion = {
  readonly hoopScored: number;
  readonly height: number;
  readonly lawn: { readonly width: number; readonly length: number; readonly unevenness: number };
};

/** How sure a call would be from places around the lawn. */
export const findStands = (question: StandsQuestion): Promise<Stands> =>
  request('/api/stands', { method: 'POST', json: question });

/** Several stored readings of one position, read together. */
export const combine = (readings: readonly string[]): Promise<Combination> =>
  request('/api/combinations', { method: 'POST', json: { readings } });
