declare const unit: unique symbol;

/** A number that carries its unit in its type; arithmetic gives a plain number, the constructors put the unit back. */
export type Quantity<U extends string> = number & { readonly [unit]: U };

/** A length on the lawn, in metres. */
export type Metres = Quantity<'m'>;
/** An angle, in radians. */
export type Radians = Quantity<'rad'>;
/** A length in the upright photo, in pixels. */
export type Pixels = Quantity<'px'>;

/** `value` metres. */
export const metres = (value: number): Metres => value as Metres;
/** `value` radians. */
export const radians = (value: number): Radians => value as Radians;
/** `value` pixels. */
export const pixels = (value: number): Pixels => value as Pixels;

/** One international yard in metres, exact (international yard and pound agreement, 1959). */
export const METRES_PER_YARD = 0.9144;

/** `value` yards, in metres. */
export const yards = (value: number): Metres => metres(value * METRES_PER_YARD);
/** `value` degrees, in radians. */
export const degrees = (value: number): Radians => radians((value * Math.PI) / 180);
