import type { ReactNode } from 'react';
import style from './shell.module.css';

/** A screen's empty, busy or failed state: a small drawing of a bare lawn, what it is, what to do. */
export const Message = ({ title, children }: { title: string; children?: ReactNode }) => (
  <section className={style.message}>
    <svg viewBox="0 0 120 72" className={style.bareLawn} aria-hidden="true">
      <path
        d="M38 10h44l30 52H8z"
        fill="var(--turf)"
        stroke="var(--chalk)"
        strokeWidth="2.5"
        strokeLinejoin="round"
      />
      <path d="M26 30.5h68" stroke="var(--chalk)" strokeWidth="1.5" strokeDasharray="4 4" />
      <path d="M60 24v10" stroke="var(--chalk)" strokeWidth="3" />
    </svg>
    <h1>{title}</h1>
    {children}
  </section>
);
