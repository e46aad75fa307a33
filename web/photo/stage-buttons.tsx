import style from './photo-stage.module.css';

/** Closer, wider, whole photo: for those who cannot pinch. */
export const StageButtons = ({ onBy, onWhole }: { onBy: (factor: number) => void; onWhole: () => void }) => (
  <div className={style.buttons} data-own-gesture>
    <button type="button" className={style.button} aria-label="Closer" onClick={() => onBy(1.6)}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d="M12 5v14M5 12h14" />
      </svg>
    </button>
    <button type="button" className={style.button} aria-label="Wider" onClick={() => onBy(1 / 1.6)}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d="M5 12h14" />
      </svg>
    </button>
    <button type="button" className={style.button} aria-label="Whole photo" onClick={onWhole}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d="M4 9V5h4M20 9V5h-4M4 15v4h4M20 15v4h-4" />
      </svg>
    </button>
  </div>
);
