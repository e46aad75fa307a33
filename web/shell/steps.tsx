import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from 'react';
import { Link } from 'wouter';
import style from './shell.module.css';

/** One step of the way from the photo to the call: where it is, if it can be gone to. */
export type Step = { readonly label: string; readonly to: string | null };

/** The way as it stands: its steps and the one in hand. */
export type Way = { readonly steps: readonly Step[]; readonly at: number };

const WayContext = createContext<{ way: Way | null; setWay: (way: Way | null) => void }>({
  way: null,
  setWay: () => undefined,
});

/** Holds the way so that the head can show what the screen says about it. */
export const WayProvider = ({ children }: { children: ReactNode }) => {
  const [way, setWay] = useState<Way | null>(null);
  const value = useMemo(() => ({ way, setWay }), [way]);
  return <WayContext value={value}>{children}</WayContext>;
};

/** A screen on the way says so here. */
export const useWay = (steps: readonly Step[], at: number): void => {
  const { setWay } = useContext(WayContext);
  const spelled = JSON.stringify([steps, at]);
  useEffect(() => {
    const [told, place] = JSON.parse(spelled) as [Step[], number];
    setWay({ steps: told, at: place });
  }, [spelled, setWay]);
};

/** The steps as marks along a chalk line; those that can be gone to are links. */
export const StepsSlot = () => {
  const { way } = useContext(WayContext);
  if (!way) return <nav className={style.steps} aria-label="Steps" />;
  return (
    <nav className={style.steps} aria-label="Steps">
      <ol>
        {way.steps.map((step, index) => (
          <li key={step.label} data-done={index < way.at || undefined}>
            {step.to && index !== way.at ? (
              <Link href={step.to}>{step.label}</Link>
            ) : (
              <span aria-current={index === way.at ? 'step' : undefined}>{step.label}</span>
            )}
          </li>
        ))}
      </ol>
    </nav>
  );
};
