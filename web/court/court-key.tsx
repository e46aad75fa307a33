import style from './check.module.css';

/** What the marks of a court's plan mean; `times` is how much longer than true the arrows are, null without arrows. */
export const CourtKey = ({ times }: { times: number | null }) => (
  <figcaption className={style.key}>
    <span>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <circle cx="12" cy="12" r="7" fill="var(--chalk)" stroke="var(--ink)" strokeWidth="2.5" />
      </svg>
      in its place
    </span>
    <span>
      <svg viewBox="0 0 24 24" aria-hidden="true" stroke="var(--ink)" strokeWidth="2.5" fill="none">
        <path d="M3 12H19M13 6L20 12L13 18" />
        <circle cx="4" cy="12" r="3" fill="var(--ink)" />
      </svg>
      off: move it so
    </span>
    <span>
      <svg
        viewBox="0 0 24 24"
        aria-hidden="true"
        stroke="var(--ink)"
        strokeWidth="2.5"
        fill="none"
        strokeLinecap="round"
      >
        <path d="M3 12H19" strokeDasharray=".1 4.5" />
        <path d="M13 6L20 12L13 18" />
      </svg>
      too close to say
    </span>
    <span>
      <b aria-hidden="true">?</b> not seen
    </span>
    {times !== null && times > 1 && <span>Arrows are drawn {times} times as long as they are.</span>}
  </figcaption>
);
