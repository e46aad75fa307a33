import type { LawnRecord } from '../../server/contract/record.ts';
import { fetchPhoto, usePicture } from '../photo/use-picture.ts';
import { photoAddress } from '../service/photos.ts';
import { Message } from '../shell/message.tsx';
import { BallsBench } from './balls-bench.tsx';

/** Opens the photo of a reading and puts the balls on it. */
export const BallsScreen = ({ record }: { record: LawnRecord }) => {
  const { photoId, photo } = record;
  const state = usePicture(`photo ${photoId}`, () => fetchPhoto(photoAddress(photoId)), photo);
  if (state.state === 'open') return <BallsBench record={record} picture={state.picture} />;
  return <Message title={state.state === 'opening' ? 'Opening the photo' : state.message} />;
};
