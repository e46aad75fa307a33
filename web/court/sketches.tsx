import style from './court.module.css';

/** Someone a few steps behind the near mark, the phone at eye height, the line of sight over both marks. */
export const SightingSketch = () => (
  <svg className={style.sketch} viewBox="0 0 360 120" role="img" aria-label={SIGHTING}>
    <rect width="360" height="120" fill="var(--turf)" />
    <rect y="92" width="360" height="28" fill="var(--turf-stripe)" />
    <path d="M50 40L332 92" stroke="var(--turf-ink)" strokeWidth="1.5" strokeDasharray="5 4" />
    <path d="M96 92V78M332 92V78" stroke="var(--chalk)" strokeWidth="5" />
    <circle cx="44" cy="36" r="8" fill="var(--turf-ink)" />
    <path
      d="M44 46V70L37 92M44 70L51 92M44 52L54 44"
      stroke="var(--turf-ink)"
      strokeWidth="4.5"
      strokeLinecap="round"
      strokeLinejoin="round"
      fill="none"
    />
    <rect x="52" y="34" width="6" height="11" rx="1.5" fill="var(--chalk)" stroke="var(--turf-ink)" />
    <circle cx="236" cy="84" r="8" fill="var(--turf-ink)" stroke="var(--chalk)" strokeWidth="2" />
    <path d="M44 104H96M44 100V108M96 100V108" stroke="var(--turf-ink)" strokeWidth="1.5" />
    <text x="104" y="110" fontSize="16" fill="var(--turf-ink)">
      two or three steps
    </text>
  </svg>
);
const SIGHTING =
  'Someone stands two or three steps behind the near mark and looks over it to the mark at the far end of the line.';

/** The whole lawn from high up, its corners ringed. */
export const CheckSketch = () => (
  <svg className={style.sketch} viewBox="0 0 360 120" role="img" aria-label={CHECK}>
    <rect width="360" height="120" fill="var(--turf)" />
    <path d="M60 104L128 24H232L300 104Z" fill="var(--turf-stripe)" stroke="var(--chalk)" strokeWidth="3" />
    {[
      [60, 104],
      [128, 24],
      [232, 24],
      [300, 104],
    ].map(([x, y]) => (
      <circle key={x} cx={x} cy={y} r="9" fill="none" stroke="var(--turf-ink)" strokeWidth="2" />
    ))}
    {[
      [128, 79],
      [153, 39],
      [207, 39],
      [232, 79],
      [180, 67],
      [180, 45],
    ].map(([x, y]) => (
      <path
        key={`${x} ${y}`}
        d={`M${x! - 4} ${y}v-8h8v8`}
        fill="none"
        stroke="var(--chalk)"
        strokeWidth="2"
      />
    ))}
    <path d="M180 57v-8" stroke="var(--chalk)" strokeWidth="3" />
    <path d="M180 108h26m-7 -5l7 5l-7 5" fill="none" stroke="var(--turf-ink)" strokeWidth="2.5" />
    <circle cx="178" cy="108" r="3.5" fill="var(--turf-ink)" />
  </svg>
);
const CHECK =
  'The whole lawn seen from high up with all four corners, and an arrow at a mark that is out of its place.';
