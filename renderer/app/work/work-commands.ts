import { useApp } from '../../store/app';
import type { Command } from '../command';
import { useDialogs } from '../dialogs';
import { useOffers } from '../recovery';

const show = useDialogs.getState().show;

/** What is kept of the work: versions of the file, unsaved work from before, the steps of undo. */
export const WORK_COMMANDS: readonly Command[] = [
  {
    id: 'versions',
    words: 'Earlier versions',
    group: 'Boat file',
    also: 'backup restore revert history of the file',
    why: () => (useApp.getState().boat === null ? 'No boat is open' : null),
    run: () => show('versions'),
  },
  {
    id: 'recover',
    words: 'Unsaved work from before',
    group: 'Boat file',
    also: 'recover crash bring back',
    why: () => (useOffers.getState().offers.length === 0 ? 'Nothing was left unsaved' : null),
    run: () => show('recovery'),
  },
];

export const STEPS_COMMAND: Command = {
  id: 'steps',
  words: 'Steps taken',
  group: 'Copy and delete',
  also: 'undo list history of edits jump',
  keys: 'H',
  why: () => ((useApp.getState().canUndo ?? useApp.getState().canRedo) === null ? 'Nothing to undo' : null),
  run: () => show('steps'),
};
