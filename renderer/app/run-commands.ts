import { useApp } from '../store/app';
import { clipPointSet, pinToggled } from '../store/pulled';
import { askOtherWays } from '../store/run-question';
import { lineInHand } from '../store/select';
import { needsRun } from './availability';
import type { Command } from './command';

/** For the run that is selected. */
export const RUN_COMMANDS: readonly Command[] = [
  {
    id: 'clip-point',
    words: 'Clip point on the selected run',
    group: 'Runs and lines',
    also: 'waypoint via',
    keys: 'K',
    why: needsRun,
    run: clipPointSet,
  },
  {
    id: 'pin',
    words: 'Pin the selected run as built, or unpin it',
    group: 'Runs and lines',
    also: 'freeze lock keep',
    keys: 'I',
    why: needsRun,
    run: pinToggled,
  },
  {
    id: 'other-ways',
    words: 'Other ways for the selected run',
    group: 'Runs and lines',
    also: 'alternatives routes',
    keys: 'A',
    why: needsRun,
    run: () => askOtherWays(lineInHand(useApp.getState().selection)),
  },
];
