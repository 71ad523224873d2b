import type { DisplayUnits, Layers, ThemeChoice } from './types';

/** What the window remembers from one start to the next. Nothing of a boat is in it. */
export interface Preferences {
  readonly theme: ThemeChoice;
  readonly units: DisplayUnits;
  readonly layers: Layers;
}

const KEY = 'underberth.preferences';
const DEFAULTS: Preferences = {
  theme: 'system',
  units: 'mm',
  layers: { names: true, balloons: true, stations: true, service: true, sweeps: false, heeled: true, grid: true },
};

/** Storage may be forbidden or hold anything: whatever does not fit falls back to the default. */
export function readPreferences(): Preferences {
  try {
    const saved: unknown = JSON.parse(globalThis.localStorage?.getItem(KEY) ?? 'null');
    if (typeof saved !== 'object' || saved === null) return DEFAULTS;
    const { theme, units, layers } = saved as Partial<Record<keyof Preferences, unknown>>;
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
    };
  } catch {
    return DEFAULTS;
  }
}

export function writePreferences(preferences: Preferences): void {
  try {
    globalThis.localStorage?.setItem(KEY, JSON.stringify(preferences));
  } catch {
    // A window without storage still works; it only forgets.
  }
}
