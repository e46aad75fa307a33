import type { LineSample } from '../camera/types.ts';
import type { BallColour } from '../lawn/colours.ts';
import type { Side } from '../lawn/court.ts';
import type { Covariance2, ImagePoint } from '../units/points.ts';

export type { Raster } from '../units/raster.ts';

/** What was found of one boundary. */
export type TracedSide = {
  readonly side: Side;
  readonly samples: readonly LineSample[];
  /** Share of the boundary's visible length on which its edge was found, 0 to 1. */
  readonly share: number;
  /** Width of the paint in metres, when both edges were seen. */
  readonly paintWidth: number | null;
  /** What the boundary is marked with; `none` where nothing was found. */
  readonly kind?: 'band' | 'string' | 'none';
  /** Length of the boundary that lies in the picture, m. */
  readonly visibleLength?: number;
  /** Standard deviation (m on the lawn, across the line) of an error that all samples share: the width of paint that was not resolved. */
  readonly systematicSd?: number;
};

/** One ball seen in the picture. */
export type BallSighting = {
  readonly colour: BallColour;
  /** Image of the ball's centre (not the middle of its outline), px. */
  readonly image: ImagePoint;
  /** Its covariance in px², from the fit alone. */
  readonly covariance: Covariance2;
  /** Probability that the colour is right and that this is a ball, 0 to 1. */
  readonly confidence: number;
  /** Share of the ball's outline that is seen, 0 to 1. */
  readonly visible: number;
};
