import { useApp } from '../store/app';
import { applyTheme } from './tokens';

/** Keeps the colours of the page those of the store, and the store's those of the system where it follows that. */
export function followTheme(window: Window): void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const tell = (): void => useApp.getState().systemTheme(dark.matches ? 'dark' : 'light');
  dark.addEventListener('change', tell);
  tell();
  applyTheme(useApp.getState().theme);
  useApp.subscribe((state, before) => {
    if (state.theme !== before.theme) applyTheme(state.theme);
  });
}
