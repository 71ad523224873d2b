import type { JSX, ReactNode } from 'react';

/** Line icons of one weight on a 20 px grid. They are decoration: the button around one carries the words. */
function Icon({ children }: { readonly children: ReactNode }): JSX.Element {
  return (
    <svg
      width="20"
      height="20"
      viewBox="0 0 20 20"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.4"
      strokeLinejoin="round"
      strokeLinecap="round"
      aria-hidden="true"
    >
      {children}
    </svg>
  );
}

export const ICONS = {
  select: (
    <Icon>
      <path d="M5.5 3.5 15 9.2l-4.3 1.2-2.2 4z" />
    </Icon>
  ),
  section: (
    <Icon>
      <path d="M10 2.5v15" strokeDasharray="5 2 1.5 2" />
      <path d="M10 4h5M13 2.5 15.2 4 13 5.5M10 16h5M13 14.5l2.2 1.5-2.2 1.5" />
    </Icon>
  ),
  pan: (
    <Icon>
      <path d="M10 3v14M3 10h14M8 5l2-2 2 2M8 15l2 2 2-2M5 8l-2 2 2 2M15 8l2 2-2 2" />
    </Icon>
  ),
  rectangle: (
    <Icon>
      <path d="M4 5.5h12v9H4z" />
      <path d="M2.800 4.300h2.400v2.400H2.800zM14.800 13.300h2.400v2.400h-2.400z" fill="currentColor" stroke="none" />
    </Icon>
  ),
  polygon: (
    <Icon>
      <path d="M4 15.5 5.5 5l7-1 4 6.5-5 5z" />
    </Icon>
  ),
  split: (
    <Icon>
      <path d="M3.5 5h13v10h-13z" />
      <path d="m7 17.5 6-15" strokeDasharray="3 2" />
    </Icon>
  ),
  opening: (
    <Icon>
      <path d="M3 15.5h3M14 15.5h3" />
      <path d="m6 15.5 7-8.5" />
      <path d="M13.5 7.5a11 11 0 0 1 .8 6" strokeDasharray="2.5 1.8" />
    </Icon>
  ),
  surface: (
    <Icon>
      <path d="M6 3.5v13" strokeWidth="2.2" />
      <path d="m6 6-3 3M6 10l-3 3M6 14l-3 3" />
      <path d="M9 8h7M9 12h7M9 6.5v3M9 10.5v3" />
    </Icon>
  ),
  hole: (
    <Icon>
      <path d="M10 2.5v4M10 13.5v4" strokeWidth="2.2" />
      <circle cx="10" cy="10" r="3.4" />
    </Icon>
  ),
  standing: (
    <Icon>
      <ellipse cx="7" cy="10" rx="2.2" ry="5" />
      <ellipse cx="13" cy="10" rx="2.2" ry="5" />
    </Icon>
  ),
  join: (
    <Icon>
      <circle cx="4.500" cy="14.500" r="2" />
      <circle cx="15.500" cy="5.500" r="2" />
      <path d="M6.500 14.500h2.200c2.600 0 2-9 4.800-9" />
    </Icon>
  ),
  measure: (
    <Icon>
      <path d="M2.5 10h15M2.5 6.5v7M17.5 6.5v7M6.200 8.5v3M10 8v4M13.800 8.5v3" />
    </Icon>
  ),
  names: (
    <Icon>
      <path d="M4 15.5 8.2 4.5h1L13 15.5M5.6 11.5h6M14.5 15.5h2.5" />
    </Icon>
  ),
  service: (
    <Icon>
      <path d="M5 12h10M5 8h10" strokeDasharray="2.5 1.8" />
      <rect x="4" y="3" width="12" height="14" strokeDasharray="2.5 1.8" />
    </Icon>
  ),
  heeled: (
    <Icon>
      <path d="M3 10h14" />
      <path d="m3.5 14.5 13-9" strokeDasharray="3 2" />
    </Icon>
  ),
  sweeps: (
    <Icon>
      <path d="M4 16V4M4 16h12" />
      <path d="M4 6a10 10 0 0 1 10 10" strokeDasharray="2.5 1.8" />
    </Icon>
  ),
  undo: (
    <Icon>
      <path d="M6.5 4 3.5 7l3 3M3.8 7H12a4.3 4.3 0 0 1 0 8.6H7.5" />
    </Icon>
  ),
  redo: (
    <Icon>
      <path d="m13.5 4 3 3-3 3M16.2 7H8a4.3 4.3 0 0 0 0 8.6h4.5" />
    </Icon>
  ),
  theme: (
    <Icon>
      <circle cx="10" cy="10" r="6.5" />
      <path d="M10 3.5a6.5 6.5 0 0 1 0 13z" fill="currentColor" />
    </Icon>
  ),
  help: (
    <Icon>
      <path d="M7.2 7.4a2.8 2.8 0 1 1 4.3 2.3c-1 .7-1.5 1.2-1.5 2.5" />
      <path d="M10 15.2v.1" strokeWidth="2" />
    </Icon>
  ),
  turn: (
    <Icon>
      <path d="M14.8 7.5A5.5 5.5 0 1 0 15.5 11" />
      <path d="M15.3 3.8v3.9h-3.9" />
    </Icon>
  ),
  close: (
    <Icon>
      <path d="m6 6 8 8M14 6l-8 8" />
    </Icon>
  ),
  'line-up-left': (
    <Icon>
      <path d="M4 3v14" strokeWidth="1.8" />
      <path d="M4 5.500h11v3.500H4z" />
      <path d="M4 11.500h7V15H4z" />
    </Icon>
  ),
  'line-up-middle-across': (
    <Icon>
      <path d="M10 3v14" strokeWidth="1.8" />
      <path d="M4.500 5.500h11v3.500h-11z" />
      <path d="M6.500 11.500h7V15h-7z" />
    </Icon>
  ),
  'line-up-right': (
    <Icon>
      <path d="M16 3v14" strokeWidth="1.8" />
      <path d="M5 5.500h11v3.500H5z" />
      <path d="M9 11.500h7V15H9z" />
    </Icon>
  ),
  'line-up-top': (
    <Icon>
      <path d="M3 4h14" strokeWidth="1.8" />
      <path d="M5 4h3.500v11H5z" />
      <path d="M11.500 4H15v7h-3.500z" />
    </Icon>
  ),
  'line-up-middle-up': (
    <Icon>
      <path d="M3 10h14" strokeWidth="1.8" />
      <path d="M5 4.500h3.500v11H5z" />
      <path d="M11.500 6.500H15v7h-3.500z" />
    </Icon>
  ),
  'line-up-bottom': (
    <Icon>
      <path d="M3 16h14" strokeWidth="1.8" />
      <path d="M5 5h3.500v11H5z" />
      <path d="M11.500 9H15v7h-3.500z" />
    </Icon>
  ),
  'space-out-across': (
    <Icon>
      <path d="M3 3v14M17 3v14" strokeWidth="1.8" />
      <path d="M8 6h4v8H8z" />
    </Icon>
  ),
  'space-out-up': (
    <Icon>
      <path d="M3 3h14M3 17h14" strokeWidth="1.8" />
      <path d="M6 8h8v4H6z" />
    </Icon>
  ),
  back: (
    <Icon>
      <path d="m12 5-5 5 5 5" />
    </Icon>
  ),
  forth: (
    <Icon>
      <path d="m8 5 5 5-5 5" />
    </Icon>
  ),
  play: (
    <Icon>
      <path d="m7 4.5 8 5.5-8 5.5z" />
    </Icon>
  ),
  pause: (
    <Icon>
      <path d="M7.5 5v10M12.5 5v10" />
    </Icon>
  ),
  find: (
    <Icon>
      <circle cx="8.500" cy="8.500" r="4.500" />
      <path d="m12 12 4.500 4.500" />
    </Icon>
  ),
  up: (
    <Icon>
      <path d="m5.5 12 4.5-4.5 4.5 4.5" />
    </Icon>
  ),
  down: (
    <Icon>
      <path d="m5.5 8 4.5 4.5L14.5 8" />
    </Icon>
  ),
} as const;

/** A hull section afloat: the product's sign. */
export function Logo(): JSX.Element {
  return (
    <svg width="26" height="26" viewBox="0 0 26 26" fill="none" aria-hidden="true">
      <path
        d="M3 5.5c0 6.5 3 9 7.2 10.6 1 .4 1.6 1 1.7 2l.4 4.4h1.4l.4-4.4c.1-1 .7-1.6 1.7-2C20 14.5 23 12 23 5.5"
        stroke="var(--ink)"
        strokeWidth="1.7"
        strokeLinejoin="round"
      />
      <path d="M1.5 10h23" stroke="var(--waterl)" strokeWidth="1.2" />
      <path d="M9.5 10.5h7v3.200h-7z" stroke="var(--accl)" strokeWidth="1.5" />
    </svg>
  );
}
