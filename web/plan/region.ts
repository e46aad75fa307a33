/** 95 % point of χ² with two degrees of freedom: −2 ln 0.05 (exact for two degrees of freedom). */
const CHI_SQUARE_95 = -2 * Math.log(0.05);

/** An ellipse on the lawn: half axes in metres and the angle of the first from east, counter-clockwise, in degrees. */
export type Region = { readonly major: number; readonly minor: number; readonly angle: number };

/** The 95 % region of a place with these standard deviations (metres) and correlation: eigenvalues of its covariance. */
export const region95 = (sdX: number, sdY: number, correlation: number): Region => {
  const [xx, yy, xy] = [sdX * sdX, sdY * sdY, correlation * sdX * sdY];
  const mean = (xx + yy) / 2;
  const spread = Math.hypot((xx - yy) / 2, xy);
  return {
    major: Math.sqrt(CHI_SQUARE_95 * (mean + spread)),
    minor: Math.sqrt(CHI_SQUARE_95 * Math.max(0, mean - spread)),
    angle: (Math.atan2(2 * xy, xx - yy) * 90) / Math.PI,
  };
};
