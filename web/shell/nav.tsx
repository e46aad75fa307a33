import type { ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { BookIcon, CallIcon, CourtIcon, HoopIcon, SettingsIcon } from './icons.tsx';
import style from './shell.module.css';

const PLACES: readonly {
  readonly to: string;
  readonly label: string;
  readonly icon: ReactNode;
  readonly under: RegExp;
}[] = [
  { to: '/', label: 'New call', icon: <CallIcon />, under: /^\/$/ },
  { to: '/readings', label: 'Readings', icon: <BookIcon />, under: /^\/readings/ },
  { to: '/games', label: 'Games', icon: <HoopIcon />, under: /^\/games/ },
  { to: '/court', label: 'Court', icon: <CourtIcon />, under: /^\/(court|stand)/ },
  { to: '/settings', label: 'Settings', icon: <SettingsIcon />, under: /^\/settings/ },
];

/** The five places of the page: along the bottom on a phone, in the head on wider screens. */
export const Nav = () => {
  const [here] = useLocation();
  return (
    <nav className={style.nav} aria-label="Places">
      {PLACES.map(({ to, label, icon, under }) => (
        <Link
          key={to}
          href={to}
          className={style.place ?? ''}
          aria-current={under.test(here) ? 'page' : undefined}
        >
          {icon}
          <span>{label}</span>
        </Link>
      ))}
    </nav>
  );
};
