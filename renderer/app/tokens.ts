import type { Theme } from '../store/types';

/** Colours by role. Contrast on paper: text at least 4.5, lines 3; on wash only ink and ink2 are text. */
const LIGHT = {
  film: '#E9EDEA',
  panel: '#F4F6F3',
  paper: '#FBFCFA',
  raise: '#FFFFFF',
  shade: '#EDF1EE',
  ink: '#14262E',
  ink2: '#3F5159',
  ink3: '#5F7078',
  draw: '#14262E',
  line: '#C6CFCD',
  hair: '#DDE3E0',
  grid: '#E6EBE8',
  accent: '#855400',
  accl: '#B97A06',
  wash: '#F9E8B9',
  wash2: '#FDF5DF',
  sea: '#0A7650',
  fresh: '#1560B4',
  plus: '#C4301C',
  bad: '#A3123F',
  watert: '#3A6E80',
  waterl: '#6891A0',
  water: '#DCEBEF',
  poche: '#24383F',
} as const;

export type TokenName = keyof typeof LIGHT;
export type Tokens = Readonly<Record<TokenName, string>>;

const DARK: Tokens = {
  film: '#0D171B',
  panel: '#101B20',
  paper: '#0A1216',
  raise: '#16242A',
  shade: '#0F1A1F',
  ink: '#DCE7E4',
  ink2: '#A9BABB',
  ink3: '#82969A',
  draw: '#AEC0C0',
  line: '#2B3C43',
  hair: '#1F2E34',
  grid: '#142026',
  accent: '#F2C14E',
  accl: '#D9A534',
  wash: '#43350F',
  wash2: '#2A2410',
  sea: '#41C795',
  fresh: '#69B1F7',
  plus: '#FF7A61',
  bad: '#FF7390',
  watert: '#86B5C4',
  waterl: '#4A7A89',
  water: '#0F2730',
  poche: '#8FA3A6',
};

export const tokens = (theme: Theme): Tokens => (theme === 'dark' ? DARK : LIGHT);

/** Puts the colours on the root as custom properties; style sheets name them `var(--paper)`. */
export function applyTheme(theme: Theme): void {
  const root = document.documentElement;
  root.dataset.theme = theme;
  root.style.colorScheme = theme;
  for (const [name, colour] of Object.entries(tokens(theme))) root.style.setProperty(`--${name}`, colour);
}
