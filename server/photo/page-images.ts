import { rasterToJpeg, rasterToThumbnail } from './encode.ts';
import { openPhoto } from './open-photo.ts';

/** The photo upright as a JPEG that every browser shows, full size, free of the original's tags. Throws as `openPhoto`. */
export const uprightJpeg = async (bytes: Uint8Array): Promise<Uint8Array> =>
  rasterToJpeg((await openPhoto(bytes)).raster);

/** A small upright JPEG, at most `side` px on its longer side. Throws as `openPhoto`. */
export const thumbnail = async (bytes: Uint8Array, side: number): Promise<Uint8Array> =>
  rasterToThumbnail((await openPhoto(bytes)).raster, side);
