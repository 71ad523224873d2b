import { hangOn } from '../board/drawing/marking';
import { RULE_WORDS } from '../panels/words';
import { useApp } from '../store/app';
import {
  copyAcross,
  deleteSelected,
  duplicateCompartment,
  mirrorCompartment,
  newCompartment,
  nextPanel,
  setRule,
} from '../store/interior';
import { useRunQuestion } from '../store/run-question';
import type { Tool } from '../store/types';
import type { Command } from './command';

const tool = (name: Tool, words: string, keys?: string): Command => ({
  id: `tool-${name}`,
  words: `Tool: ${words}`,
  ...(keys === undefined ? {} : { keys }),
  run: () => useApp.getState().setTool(name),
});

/** For the compartment that is selected. */
const ofCompartment = (id: string, words: string, run: (compartment: string) => void): Command => ({
  id,
  words,
  run: () => {
    const { selection, notify } = useApp.getState();
    if (selection?.kind === 'compartment') run(selection.id);
    else notify('Select a compartment first');
  },
});

const SIDES = ['top', 'bottom', 'forward end', 'after end', 'port side', 'starboard side'] as const;

export const INTERIOR_COMMANDS: readonly Command[] = [
  { id: 'new-compartment', words: 'New compartment by numbers', keys: 'C', run: newCompartment },
  tool('rectangle', 'draw a rectangular compartment', 'B'),
  tool('polygon', 'draw a compartment corner by corner', 'P'),
  tool('split', 'split a compartment', 'X'),
  tool('opening', 'draw an opening on a face', 'O'),
  tool('surface', 'draw a mounting surface on a face'),
  tool('hole', 'add a hole to a panel'),
  tool('standing', 'set a standing place'),
  tool('measure', 'measure a distance', 'M'),
  ...SIDES.map((side) =>
    ofCompartment(`opening-${side.replace(' ', '-')}`, `Opening in the ${side} of the compartment`, (id) =>
      hangOn(id, side, 'opening'),
    ),
  ),
  ...SIDES.map((side) =>
    ofCompartment(`surface-${side.replace(' ', '-')}`, `Mounting surface on the ${side} of the compartment`, (id) =>
      hangOn(id, side, 'surface'),
    ),
  ),
  { id: 'panel-next', words: 'Next panel of the compartment', keys: 'L', run: nextPanel },
  ...(['open', 'drill', 'noDrill'] as const).map(
    (rule): Command => ({
      id: `panel-${rule}`,
      words: `Panel: ${RULE_WORDS[rule].toLowerCase()}`,
      run: () => setRule(rule),
    }),
  ),
  ofCompartment('compartment-mirror', 'Mirror the compartment to the other side', mirrorCompartment),
  ofCompartment('compartment-across', 'Copy the compartment to the other side', copyAcross),
  ofCompartment('compartment-duplicate', 'Duplicate the compartment', duplicateCompartment),
  {
    id: 'delete-selected',
    words: 'Delete what is selected',
    keys: 'Delete',
    run: () => void deleteSelected(),
  },
];

/** Escape leaves the other ways that are shown, then puts down the tool, then the selection. */
export function putDown(): void {
  const { tool, setTool, select } = useApp.getState();
  const { about, drop } = useRunQuestion.getState();
  if (about === 'alternatives') {
    drop();
    return;
  }
  if (tool === 'select') select(null);
  else setTool('select');
}
