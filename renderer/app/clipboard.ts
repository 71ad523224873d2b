import { useDoor } from '../doors/door';
import { useApp } from '../store/app';
import { copyChosen, cutChosen, pasteText } from '../store/clipboard';
import { deleteSelected } from '../store/interior';
import { isTyping } from './keys';

/**
 * The clipboard of the system, by the browser's own events: it asks for no permission and works between windows. Text that is marked
 * on the screen, and what goes into a field, stays the browser's.
 */
export function listenToClipboard(window: Window): () => void {
  const isOurs = (event: ClipboardEvent): boolean =>
    !event.defaultPrevented &&
    !isTyping(event.target) &&
    !document.querySelector('dialog[open]') &&
    useApp.getState().boat !== null &&
    useDoor.getState().door === null;
  const isTextMarked = (): boolean => (window.getSelection()?.toString() ?? '') !== '';
  const take = (event: ClipboardEvent, text: string | null): void => {
    if (text === null || !event.clipboardData) return;
    event.preventDefault();
    event.clipboardData.setData('text/plain', text);
  };
  const onCopy = (event: ClipboardEvent): void => {
    if (isOurs(event) && !isTextMarked()) take(event, copyChosen());
  };
  const onCut = (event: ClipboardEvent): void => {
    if (isOurs(event) && !isTextMarked()) take(event, cutChosen(deleteSelected));
  };
  const onPaste = (event: ClipboardEvent): void => {
    const text = isOurs(event) ? (event.clipboardData?.getData('text/plain') ?? '') : '';
    if (text === '') return;
    event.preventDefault();
    pasteText(text);
  };
  window.document.addEventListener('copy', onCopy);
  window.document.addEventListener('cut', onCut);
  window.document.addEventListener('paste', onPaste);
  return () => {
    window.document.removeEventListener('copy', onCopy);
    window.document.removeEventListener('cut', onCut);
    window.document.removeEventListener('paste', onPaste);
  };
}
