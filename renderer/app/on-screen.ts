import type { Found } from './find';

/** Buttons that the finder need not tell of: its own answers, rows of tables, which are things, and entries of a menu. */
const APART = '.find, .row-name, [role=menuitem], [aria-hidden=true] *';

/** Where a button stands, in the words of its region. */
function regionOf(button: Element): string {
  const region = button.closest(
    '[role=dialog], dialog, section[aria-label], aside[aria-label], nav[aria-label], [role=toolbar]',
  );
  return region?.getAttribute('aria-label')?.toLowerCase() ?? 'on this screen';
}

const spoken = (button: Element): string =>
  (button.getAttribute('aria-label') ?? button.textContent ?? '').replace(/\s+/g, ' ').trim();

/** Every button that stands on the screen, by its words: what forms and inspectors offer just now. */
export function buttonsOnScreen(): readonly Found[] {
  const found = new Map<string, Found>();
  for (const button of document.querySelectorAll<HTMLButtonElement>('button')) {
    if (button.matches(APART) || button.closest('.find') || button.dataset.command !== undefined) continue;
    const words = spoken(button);
    const region = regionOf(button);
    const id = `button ${region} ${words}`;
    if (words === '' || found.has(id)) continue;
    found.set(id, {
      id,
      words,
      also: region,
      kind: region,
      why: button.disabled ? button.title || 'Not available now' : null,
      run: () => {
        button.scrollIntoView?.({ block: 'nearest' });
        button.focus();
        button.click();
      },
    });
  }
  return [...found.values()];
}
