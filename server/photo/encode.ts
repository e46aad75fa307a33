import sharp, { type Sharp } from 'sharp';
import type { Raster } from '../units/raster.ts';

/** JPEG quality of the page's picture: fine enough to mark on, a third of the original's weight. From trial, no source. */
const PAGE_QUALITY = 88;
const THUMBNAIL_QUALITY = 78;

const ofRaster = ({ width, height, data }: Raster): Sharp =>
  sharp(data, { raw: { width, height, channels: 3 }, limitInputPixels: false });

/** Pixels as a JPEG file, full size, without the original's tags: place and time of a person's picture stay behind. */
export const rasterToJpeg = (raster: Raster, quality = PAGE_QUALITY): Promise<Uint8Array> =>
  ofRaster(raster).jpeg({ quality }).toBuffer();

/** Pixels as a PNG file. */
export const rasterToPng = (raster: Raster): Promise<Uint8Array> => ofRaster(raster).png().toBuffer();

/** A JPEG of at most `side` px on its longer side; never larger than the picture. */
export const rasterToThumbnail = (raster: Raster, side: number): Promise<Uint8Array> =>
  ofRaster(raster)
    .resize({ width: side, height: side, fit: 'inside', withoutEnlargement: true })
    .jpeg({ quality: THUMBNAIL_QUALITY })
    .toBuffer();
