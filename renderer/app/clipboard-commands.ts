import { copiedText, duplicateChosen, pasteText } from '../store/clipboard';
import { needsBoat, needsThings } from './availability';
import type { Command } from './command';

export const CLIPBOARD_COMMANDS: readonly Command[] = [
  {
    id: 'copy',
    words: 'Copy what is picked',
    group: 'Copy and delete',
    also: 'clipboard',
    keys: 'Ctrl C',
    where: 'clipboard',
    why: needsThings(1),
    run: () => void document.execCommand('copy'),
  },
  {
    id: 'cut',
    words: 'Cut what is picked',
    group: 'Copy and delete',
    also: 'clipboard move to another boat',
    keys: 'Ctrl X',
    where: 'clipboard',
    why: needsThings(1),
    run: () => void document.execCommand('cut'),
  },
  {
    id: 'paste',
    words: 'Paste what was copied',
    group: 'Copy and delete',
    also: 'clipboard insert put',
    keys: 'Ctrl V',
    where: 'clipboard',
    why: () => needsBoat() ?? (copiedText() === null ? 'Nothing was copied here. From another window: Ctrl V' : null),
    run: () => void pasteText(copiedText() ?? ''),
  },
  {
    id: 'duplicate',
    words: 'Duplicate what is picked',
    group: 'Copy and delete',
    also: 'copy second twin',
    keys: 'Ctrl D',
    why: needsThings(1),
    run: () => void duplicateChosen(),
  },
];
