import { type ReactNode, useEffect, useRef } from 'react';
import { Link, useLocation } from 'wouter';
import { Nav } from './nav.tsx';
import style from './shell.module.css';
import { StepsSlot } from './steps.tsx';
import { WaitingNote } from './waiting-note.tsx';

/** Paths on which a photo is on its way to a call: there the steps take the place of the places. */
const ON_THE_WAY = /^\/(photo|marks|balls|call|court\/(sighting|check))\//;

/** Moves focus to the new screen and its top when the address changes, so that neither eye nor screen reader is left behind. */
const useArrival = (here: string) => {
  const main = useRef<HTMLElement>(null);
  const first = useRef(true);
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs once for each address
  useEffect(() => {
    if (first.current) {
      first.current = false;
      return;
    }
    window.scrollTo(0, 0);
    main.current?.focus({ preventScroll: true });
  }, [here]);
  return main;
};

/** Head, screen, and the places. */
export const Frame = ({ children }: { children: ReactNode }) => {
  const [here] = useLocation();
  const main = useArrival(here);
  const onTheWay = ON_THE_WAY.test(here);
  return (
    <div className={style.page} data-way={onTheWay || undefined}>
      <a className={style.skip} href="#screen">
        To the screen's content
      </a>
      <header className={style.head}>
        <Link href="/" className={style.mark ?? ''} aria-label="Sward, to the start">
          <img src="/icon.svg" alt="" width="36" height="36" />
          <span className={style.word}>Sward</span>
        </Link>
        {onTheWay ? <StepsSlot /> : <Nav />}
      </header>
      <WaitingNote />
      <main id="screen" ref={main} tabIndex={-1} className={style.main}>
        {children}
      </main>
    </div>
  );
};
