import type { ReactNode } from 'react';
import style from './home.module.css';
import { LawnScene } from './lawn-scene.tsx';

/** The question the page is there for, over a lawn as the camera sees it. */
export const Greeting = ({ children }: { children: ReactNode }) => (
  <section className={style.greeting}>
    <LawnScene />
    <div className={style.question}>
      <h1>Is all of it across?</h1>
      <p>
        Photograph the lawn, pin its corners, and read where every ball lies and whether all of it is past the
        halfway line, with an honest margin.
      </p>
      {children}
    </div>
  </section>
);
