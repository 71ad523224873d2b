/** What is said where a copy did not come about. */
export const NOT_COPIED = { title: 'Not copied', lines: ['The clipboard cannot be written to here.'] } as const;

/**
 * Puts text on the clipboard, also as markup where it has one. A copy that a click or a key asks for needs no permission, unlike
 * writing to the clipboard at any time. False where it cannot be written to.
 */
export function copied({ text, html }: { readonly text: string; readonly html?: string }): boolean {
  let isCopied = false;
  const fill = (event: ClipboardEvent): void => {
    event.clipboardData?.setData('text/plain', text);
    if (html !== undefined) event.clipboardData?.setData('text/html', html);
    event.preventDefault();
    // What else listens would put the picked things there.
    event.stopImmediatePropagation();
    isCopied = event.clipboardData !== null;
  };
  window.addEventListener('copy', fill, { capture: true, once: true });
  document.execCommand('copy');
  window.removeEventListener('copy', fill, { capture: true });
  return isCopied;
}
