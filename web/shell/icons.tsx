import type { ReactNode } from 'react';

const Icon = ({ children }: { children: ReactNode }) => (
  <svg
    viewBox="0 0 24 24"
    width="24"
    height="24"
    fill="none"
    stroke="currentColor"
    strokeWidth="1.8"
    strokeLinecap="round"
    strokeLinejoin="round"
    aria-hidden="true"
  >
    {children}
  </svg>
);

/** A lawn in perspective with a ball on it: a new call. */
export const CallIcon = () => (
  <Icon>
    <path d="M8 5h8l5 14H3z" />
    <path d="M5.6 12h12.8" strokeDasharray="2 2.4" />
    <circle cx="14" cy="9" r="1.6" fill="currentColor" />
  </Icon>
);
/** A field book: the readings. */
export const BookIcon = () => (
  <Icon>
    <path d="M5 4h13v16H5zM9 4v16M12 8h4M12 12h4M12 16h3" />
  </Icon>
);
/** A hoop with a ball: the games. */
export const HoopIcon = () => (
  <Icon>
    <path d="M7 20V5.5h10V20" />
    <circle cx="12" cy="17" r="2.6" />
  </Icon>
);
/** A lawn from above with its marks: the court. */
export const CourtIcon = () => (
  <Icon>
    <path d="M6 3h12v18H6zM4 12h2M18 12h2M12 1.5V3M12 21v1.5" />
    <circle cx="12" cy="12" r=".8" fill="currentColor" />
  </Icon>
);
/** Two sliders: the settings. */
export const SettingsIcon = () => (
  <Icon>
    <path d="M4 8h9M17 8h3M4 16h3M11 16h9" />
    <circle cx="15" cy="8" r="2" />
    <circle cx="9" cy="16" r="2" />
  </Icon>
);
/** Undo. */
export const BackIcon = () => (
  <Icon>
    <path d="M9 7L4 12l5 5M4 12h10a6 6 0 0 1 6 6" />
  </Icon>
);
/** An eye: show this in the photo. */
export const EyeIcon = () => (
  <Icon>
    <path d="M2.5 12C6 6.5 18 6.5 21.5 12C18 17.5 6 17.5 2.5 12Z" />
    <circle cx="12" cy="12" r="2.6" fill="currentColor" />
  </Icon>
);
