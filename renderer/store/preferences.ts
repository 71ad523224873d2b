import type { DisplayUnits, Layers, ThemeChoice } from './types';

/** What the window remembers from one start to the next. Nothing of a boat is in it. */
export interface Preferences {
  readonly theme: ThemeChoice;
  readonly units: DisplayUnits;
  readonly layers: Layers;
  /** Hints of the sample that were put away. */
  readonly hintsAway: readonly string[];
  readonly textSize: TextSize;
}

/** Of letters and all that holds them, in hundredths of what is usual. */
export const TEXT_SIZES = [100, 125, 150] as const;
export type TextSize = (typeof TEXT_SIZES)[number];

const KEY = 'underberth.preferences';
const DEFAULTS: Preferences = {
  theme: 'system',
  units: 'mm',
  layers: { names: true, balloons: true, stations: true, service: true, sweeps: false, heeled: true, grid: true },
  hintsAway: [],
  textSize: 100,
};

/** Storage may be forbidden or hold anything: whatever does not fit falls back to the default. */
export function readPreferences(): Preferences {
  try {
    const saved: unknown = JSON.parse(globalThis.localStorage?.getItem(KEY) ?? 'null');
    if (typeof saved !== 'object' || saved === null) return DEFAULTS;
    const { theme, units, layers, hintsAway, textSize } = saved as Partial<Record<keyof Preferences, unknown>>;
    const shown = { ...DEFAULTS.layers };
    if (typeof layers === 'object' && layers !== null) {
      for (const key of Object.keys(shown) as (keyof Layers)[]) {
        const value = (layers as Record<string, unknown>)[key];
        if (typeof value === 'boolean') Object.assign(shown, { [key]: value });
      }
    }
    return {
      theme: theme === 'light' || theme === 'dark' ? theme : 'system',
      units: units === 'inch' ? 'inch' : 'mm',
      layers: shown,
      hintsAway: Array.isArray(hintsAway) ? hintsAway.filter((hint) => typeof hint === 'string') : [],
      textSize: TEXT_SIZES.find((size) => size === textSize) ?? 100,
    };
  } catch {
    return DEFAULTS;
  }
}

/** Keeps what is named; all else stays as it was kept. */
export function writePreferences(changed: Partial<Preferences>): void {
  try {
    globalThis.localStorage?.setItem(KEY, JSON.stringify({ ...readPreferences(), ...changed }));
  } catch {
    // A window without storage still works; it only forgets.
  }
}
