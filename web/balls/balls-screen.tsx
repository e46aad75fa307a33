import type { LawnRecord, SightingRecord } from '../../server/contract/record.ts';
import { fetchPhoto, usePicture } from '../photo/use-picture.ts';
import { photoAddress } from '../service/photos.ts';
import { Message } from '../shell/message.tsx';
import { type BallPicture, ballPictureOf } from './ball-picture.ts';
import { BallsBench } from './balls-bench.tsx';

const Opened = ({ seen }: { seen: BallPicture }) => {
  const { photoId } = seen.record;
  const state = usePicture(`photo ${photoId}`, () => fetchPhoto(photoAddress(photoId)), seen.size);
  if (state.state === 'open') return <BallsBench seen={seen} picture={state.picture} />;
  return <Message title={state.state === 'opening' ? 'Opening the photo' : state.message} />;
};

/** Opens the photo of a reading and puts the balls on it. */
export const BallsScreen = ({ record }: { record: LawnRecord | SightingRecord }) => {
  const seen = ballPictureOf(record);
  if (seen) return <Opened seen={seen} />;
  return (
    <Message title="This picture was read before its camera was kept">
      <p>Read it again from its marks; then its balls can be corrected.</p>
    </Message>
  );
};
