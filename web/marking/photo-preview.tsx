import { useEffect, useState } from 'react';
import type { Draft } from '../draft/draft.ts';
import { getDraftPhoto } from '../draft/draft-store.ts';
import { photoAddress } from '../service/photos.ts';
import style from './marking.module.css';

const useAddress = ({ id, shownHere, photoId }: Draft): string | null => {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    if (!shownHere) {
      setAddress(photoId && photoAddress(photoId));
      return;
    }
    let made: string | null = null;
    let current = true;
    getDraftPhoto(id).then((file) => {
      if (!current) return;
      made = file ? URL.createObjectURL(file) : null;
      setAddress(made ?? (photoId && photoAddress(photoId)));
    });
    return () => {
      current = false;
      if (made) URL.revokeObjectURL(made);
    };
  }, [id, shownHere, photoId]);
  return address;
};

/** The chosen photo as a strip across the screen. */
export const PhotoPreview = ({ draft }: { draft: Draft }) => {
  const address = useAddress(draft);
  return (
    <div className={style.preview}>
      {address ? (
        <img src={address} alt="The chosen lawn" />
      ) : (
        <p>
          {draft.trouble
            ? 'This photo cannot be shown.'
            : "This browser cannot show this kind of file. The club's machine opens it; it is on its way there."}
        </p>
      )}
    </div>
  );
};
