import { useEffect, useState } from 'react';
import { closePicture, openPicture, type Picture } from './picture.ts';
import type { Size } from './view.ts';

/** A picture on its way: being opened, open, or not to be shown with the reason. */
export type PictureState =
  | { readonly state: 'opening' }
  | { readonly state: 'open'; readonly picture: Picture }
  | { readonly state: 'failed'; readonly message: string };

const OPENING: PictureState = { state: 'opening' };

/**
 * Opens the picture that `fetchFile` gives; opens again when `key` changes, and frees the old one. A null key stays at opening. `size` is
 * the photo's own size when the file may be a smaller copy.
 */
export const usePicture = (
  key: string | null,
  fetchFile: () => Promise<Blob>,
  size: Size | null,
): PictureState => {
  const [state, setState] = useState<PictureState>(OPENING);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for the file and its size
  useEffect(() => {
    if (key === null) return;
    let current = true;
    let opened: Picture | null = null;
    setState(OPENING);
    fetchFile()
      .then((file) => openPicture(file, size))
      .then((picture) => {
        opened = picture;
        if (current) setState({ state: 'open', picture });
        else closePicture(picture);
      })
      .catch(() => {
        if (current)
          setState({
            state: 'failed',
            message: 'The photo could not be shown here. Choose it again, or try another browser.',
          });
      });
    return () => {
      current = false;
      if (opened) closePicture(opened);
    };
  }, [key]);
  return state;
};

/** The upright picture of a stored photo, from the server. */
export const fetchPhoto = async (address: string): Promise<Blob> => {
  const response = await fetch(address);
  if (!response.ok)
    throw new Error(`Expected a picture from ${address} but received status ${response.status}`);
  return response.blob();
};
