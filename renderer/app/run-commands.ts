import { useApp } from '../store/app';
import { clipPointSet, pinToggled } from '../store/pulled';
import { askOtherWays } from '../store/run-question';
import { lineInHand } from '../store/select';
import type { Command } from './command';

/** For the run that is selected. */
export const RUN_COMMANDS: readonly Command[] = [
  { id: 'clip-point', words: 'Clip point on the selected run', keys: 'K', run: clipPointSet },
  { id: 'pin', words: 'Pin the selected run as built, or unpin it', keys: 'I', run: pinToggled },
  {
    id: 'other-ways',
    words: 'Other ways for the selected run',
    keys: 'A',
    run: () => askOtherWays(lineInHand(useApp.getState().selection)),
  },
];
