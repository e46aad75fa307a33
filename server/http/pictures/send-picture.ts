import type { Request, Response } from 'express';
import type { DerivedName } from '../../store/files/photo-files.ts';
import type { Deps } from '../deps.ts';
import { found } from '../handle.ts';

/** Most px a side of the small picture in lists. */
const THUMBNAIL_SIDE = 480;

type Make = (original: Uint8Array) => Promise<Uint8Array>;

/**
 * Sends a picture made from photo `id`. A photo never changes under its id, so the id is the tag; yet the browser asks again each time,
 * so that a picture that was deleted is not shown any more.
 */
export const sendDerived = async (
  deps: Deps,
  [request, response]: readonly [Request, Response],
  id: string,
  name: DerivedName,
  make: Make,
): Promise<void> => {
  found(await deps.store.photos.get(id), 'photo');
  response.set('ETag', `"${id}-${name}"`);
  response.set('Cache-Control', 'private, no-cache');
  if (request.fresh) return void response.status(304).end();
  const picture = found(await deps.files.derived(id, name, make), 'photo');
  response.type('jpeg').send(Buffer.from(picture));
};

/** The upright picture of photo `id`, full size. */
export const uprightOf = (deps: Deps, id: string): Promise<Uint8Array | null> =>
  deps.files.derived(id, 'upright.jpg', deps.photos.upright);

/** Sends the upright picture. */
export const sendUpright = (deps: Deps, exchange: readonly [Request, Response], id: string): Promise<void> =>
  sendDerived(deps, exchange, id, 'upright.jpg', deps.photos.upright);

/** Sends the small picture. */
export const sendThumbnail = (
  deps: Deps,
  exchange: readonly [Request, Response],
  id: string,
): Promise<void> =>
  sendDerived(deps, exchange, id, 'thumbnail.jpg', (original) =>
    deps.photos.thumbnail(original, THUMBNAIL_SIDE),
  );
