import type { Allowance } from './allowances.ts';
import style from './sighting.module.css';

/** Half the width of the drawing, in its own units. */
const HALF = 100;

/**
 * One allowance to scale: a full bar from the line in the middle as far as the ball would seem to be moved, and a hatched one about its end
 * for the doubt that is left. `scale` is what half the width stands for, metres.
 */
export const AllowanceBar = ({ allowance, scale }: { allowance: Allowance; scale: number }) => {
  const end = (HALF * allowance.shift) / scale;
  const doubt = (HALF * allowance.give) / scale;
  return (
    <svg
      className={style.bar}
      viewBox={`${-HALF - 1} 0 ${2 * HALF + 2} 22`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <path className={style.axis} d={`M${-HALF} 11H${HALF}`} />
      <rect className={style.shift} x={Math.min(0, end)} y="4" width={Math.abs(end)} height="14" />
      <rect className={style.doubt} x={end - doubt} y="7" width={2 * doubt} height="8" />
      <path className={style.zero} d="M0 0V22" />
    </svg>
  );
};
