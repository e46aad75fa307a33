import type { Draft } from '../draft/draft.ts';
import { getDraftPhoto } from '../draft/draft-store.ts';
import { fetchPhoto, type PictureState, usePicture } from '../photo/use-picture.ts';
import { photoAddress } from '../service/photos.ts';

/** The photo of a draft: the file in this browser, or the server's upright copy when the file cannot be shown here or is not here. */
export const useDraftPicture = (draft: Draft): PictureState => {
  const { id, shownHere, photoId, size } = draft;
  const key = shownHere ? `file ${id}` : photoId && size ? `photo ${photoId}` : null;
  const fetchFile = async (): Promise<Blob> => {
    const file = shownHere ? await getDraftPhoto(id) : null;
    return file ?? fetchPhoto(photoAddress(photoId!));
  };
  return usePicture(key, fetchFile, size);
};
