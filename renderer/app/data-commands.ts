import { openDataSheet } from '../panels/data/data-sheet';
import { needsBoat } from './availability';
import type { Command } from './command';
import { useDialogs } from './dialogs';

const shown = (dialog: NonNullable<ReturnType<typeof useDialogs.getState>['shown']>) => (): void =>
  useDialogs.getState().show(dialog);

/** What is entered in dialogs of its own. */
export const DATA_COMMANDS: readonly Command[] = [
  {
    id: 'all-data',
    words: 'All data of the boat',
    group: 'Boat file',
    also: 'people demands run states operating states weights flooding accuracy notes needs edit everything',
    keys: 'D',
    why: needsBoat,
    run: shown('allData'),
  },
  {
    id: 'catalogue',
    words: 'Catalogue of parts, hoses and fittings',
    group: 'Boat file',
    also: 'add part fixture hose tube cable typical browse library',
    keys: 'G',
    why: needsBoat,
    run: shown('catalogue'),
  },
  {
    id: 'data-sheet',
    words: 'New part from its data sheet',
    group: 'Boat file',
    also: 'enter part dimensions ports specification',
    why: needsBoat,
    run: () => openDataSheet({ kind: 'new' }),
  },
  {
    id: 'whole-set',
    words: 'Place a whole generic set',
    group: 'Boat file',
    also: 'watermaker generic set pump membrane lines all at once',
    why: needsBoat,
    run: shown('wholeSet'),
  },
];
