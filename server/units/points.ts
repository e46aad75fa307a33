declare const frame: unique symbol;

/** A point on the lawn's ground plane: metres, origin corner 1, x east, y north. */
export type LawnPoint = { readonly x: number; readonly y: number; readonly [frame]?: 'lawn' };
/** A point above the lawn: metres, origin corner 1, x east, y north, z up from the ground. */
export type LawnPoint3 = LawnPoint & { readonly z: number };
/** A point of the upright photo: px, origin at the top-left corner of the top-left pixel, x right, y down. */
export type ImagePoint = { readonly x: number; readonly y: number; readonly [frame]?: 'image' };

/** The lawn point (x, y), in metres. */
export const lawnPoint = (x: number, y: number): LawnPoint => ({ x, y }) as LawnPoint;
/** The point (x, y) in metres at `z` metres above the ground. */
export const lawnPoint3 = (x: number, y: number, z: number): LawnPoint3 => ({ x, y, z }) as LawnPoint3;
/** The image point (x, y), in px of the upright photo. */
export const imagePoint = (x: number, y: number): ImagePoint => ({ x, y }) as ImagePoint;

/** A symmetric 2 × 2 covariance: `xx` and `yy` variances, `xy` covariance, in the square of the frame's unit. */
export type Covariance2 = { readonly xx: number; readonly xy: number; readonly yy: number };
