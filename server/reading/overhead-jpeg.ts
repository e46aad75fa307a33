import type { Camera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import type { Reading } from '../contract/reading.ts';
import { STANDARD_COURT } from '../lawn/court.ts';
import { rasterToJpeg } from '../photo/encode.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { metres, pixels } from '../units/numbers.ts';
import { overheadPicture } from '../vision/overhead.ts';
import { courtOf } from './from-marks.ts';

/** Scale and margin of the straightened picture: 40 px a metre shows a ball as 4 px, and a whole lawn fits a screen. */
const SIZE = { pixelsPerMetre: 40, margin: metres(1) } as const;

const cameraOf = ({ camera, photo }: Pick<Reading, 'camera' | 'photo'>): Camera => ({
  position: camera.position,
  rotation: camera.rotation,
  focal: pixels(camera.focal),
  radial: camera.radial,
  width: pixels(photo.width),
  height: pixels(photo.height),
});

/** The lawn of a kept reading straightened to a view from above, as a JPEG. */
export const overheadJpeg = async (
  photo: UprightPhoto,
  reading: Pick<Reading, 'camera' | 'photo'> & { readonly marks?: Marks },
): Promise<Uint8Array> => {
  const court = reading.marks ? courtOf(reading.marks) : STANDARD_COURT;
  return rasterToJpeg(overheadPicture(photo.raster, cameraOf(reading), court, SIZE));
};
