import { useApp } from '../store/app';
import { useTextSize } from '../store/text-size';
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

/** Keeps the letters of the page as large as the store says, on top of what the browser itself is set to. */
export function followTextSize(document: Document): void {
  const tell = (size: number): void => {
    document.documentElement.style.fontSize = size === 100 ? '' : `${size}%`;
  };
  tell(useTextSize.getState().size);
  useTextSize.subscribe(({ size }) => tell(size));
}
