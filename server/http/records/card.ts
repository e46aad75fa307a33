import type { Request } from 'express';
import type { PhotoRecord } from '../../contract/record.ts';
import type { CardOptions, Deps } from '../deps.ts';
import { found, idOf } from '../handle.ts';
import { uprightOf } from '../pictures/send-picture.ts';
import { settingsOf } from './take-reading.ts';

const optionsOf = async (deps: Deps, record: PhotoRecord, withPhoto: boolean): Promise<CardOptions> => ({
  photo: withPhoto ? await uprightOf(deps, record.photoId) : null,
  settings: await settingsOf(deps),
  spot: record.spot === null ? null : ((await deps.store.spots.get(record.spot))?.name ?? null),
  game: record.game === null ? null : ((await deps.store.games.get(record.game))?.title ?? null),
});

/** The card of a request's record in one of its forms; `photo=0` leaves the photo, and with it the people, out. */
export const cardFile = async (
  deps: Deps,
  form: 'png' | 'pdf' | 'text',
  request: Request,
): Promise<Uint8Array | string> => {
  const record = found(await deps.store.records.get(idOf(request, 'reading')), 'reading');
  const options = await optionsOf(deps, record, form !== 'text' && request.query.photo !== '0');
  return deps.cards[form](record, options);
};
