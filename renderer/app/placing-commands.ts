import { askWhere, noPlaceQuestion } from '../store/placing';
import type { Command } from './command';

/** For the parts that are picked. */
export const PLACING_COMMANDS: readonly Command[] = [
  {
    id: 'where-can-it-go',
    words: 'Where can it go?',
    group: 'Move, turn, line up',
    also: 'place fit locker compartment suggest best position find room put',
    keys: 'W',
    why: noPlaceQuestion,
    run: askWhere,
  },
];
