import type { Photo } from '../../contract/photo.ts';
import type { Deps } from '../deps.ts';

/** A photo about to be kept. */
export type NewPhoto = { readonly photo: Photo; readonly bytes: Uint8Array };

/** Describes `bytes` as a photo with an id of its own. Rejects with an InputError when they are no picture that is taken. */
export const describePhoto = async (deps: Deps, bytes: Uint8Array): Promise<NewPhoto> => {
  const facts = await deps.photos.facts(bytes);
  const photo = {
    id: deps.newId(),
    createdAt: deps.now().toISOString(),
    width: facts.width,
    height: facts.height,
    format: facts.format,
    bytes: bytes.length,
    focal35: facts.focal35,
    focalPixels: facts.focalPixels,
    takenAt: facts.takenAt,
  };
  return { photo, bytes };
};

/** Keeps the files of a photo that comes alone. Its upright picture is made first: that decodes every pixel, so that a cut-off file is refused. */
export const keepDecoded = async (deps: Deps, { photo, bytes }: NewPhoto): Promise<void> => {
  const upright = await deps.photos.upright(bytes);
  await deps.files.keep(photo.id, bytes);
  await deps.files.derived(photo.id, 'upright.jpg', async () => upright);
};
