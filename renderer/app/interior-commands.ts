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
import { usePlacing } from '../store/placing';
import { useRunQuestion } from '../store/run-question';
import { useService } from '../store/service';
import type { Tool } from '../store/types';
import { needsBoat, needsKind, needsSelection } from './availability';
import type { Command } from './command';

export const tool = (
  name: Tool,
  words: string,
  { keys, also }: { readonly keys?: string; readonly also?: string } = {},
): Command => ({
  id: `tool-${name}`,
  words: `Tool: ${words}`,
  group: 'Tools',
  ...(keys === undefined ? {} : { keys }),
  ...(also === undefined ? {} : { also }),
  why: needsBoat,
  run: () => useApp.getState().setTool(name),
});

/** Tools that draw the interior. */
export const DRAWING_TOOLS: readonly Command[] = [
  tool('rectangle', 'draw a rectangular compartment', { keys: 'B', also: 'box locker' }),
  tool('polygon', 'draw a compartment corner by corner', { keys: 'P', also: 'outline locker' }),
  tool('split', 'split a compartment', { keys: 'X', also: 'divide bulkhead' }),
  tool('opening', 'draw an opening on a face', { keys: 'O', also: 'hatch lid door' }),
  tool('surface', 'draw a mounting surface on a face', { also: 'screw fix' }),
  tool('hole', 'add a hole to a panel', { also: 'drill' }),
  tool('standing', 'set a standing place', { also: 'person kneel reach' }),
];

/** For the compartment that is selected. */
const ofCompartment = (id: string, words: string, run: (compartment: string) => void): Command => ({
  id,
  words,
  group: 'Compartments and panels',
  why: needsKind('compartment', 'a compartment'),
  run: () => {
    const { selection } = useApp.getState();
    if (selection?.kind === 'compartment') run(selection.id);
  },
});

const SIDES = ['top', 'bottom', 'forward end', 'after end', 'port side', 'starboard side'] as const;

export const INTERIOR_COMMANDS: readonly Command[] = [
  {
    id: 'new-compartment',
    words: 'New compartment by numbers',
    group: 'Compartments and panels',
    also: 'add locker',
    keys: 'C',
    why: needsBoat,
    run: newCompartment,
  },
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
  {
    id: 'panel-next',
    words: 'Next panel of the compartment',
    group: 'Compartments and panels',
    also: 'bulkhead',
    keys: 'L',
    why: needsBoat,
    run: nextPanel,
  },
  ...(['open', 'drill', 'noDrill'] as const).map(
    (rule): Command => ({
      id: `panel-${rule}`,
      words: `Panel: ${RULE_WORDS[rule].toLowerCase()}`,
      group: 'Compartments and panels',
      why: needsKind('panel', 'a panel'),
      run: () => setRule(rule),
    }),
  ),
  ofCompartment('compartment-mirror', 'Mirror the compartment to the other side', mirrorCompartment),
  ofCompartment('compartment-across', 'Copy the compartment to the other side', copyAcross),
  ofCompartment('compartment-duplicate', 'Duplicate the compartment', duplicateCompartment),
  {
    id: 'delete-selected',
    words: 'Delete what is selected',
    group: 'Copy and delete',
    also: 'remove erase picked',
    keys: 'Delete',
    moreKeys: ['Backspace'],
    why: needsSelection,
    run: () => void deleteSelected(),
  },
];

/** Escape leaves the question where parts can go, and the other ways that are shown, then puts down the tool, then the selection. */
export function putDown(): void {
  const { tool, setTool, select } = useApp.getState();
  const { chosen, choose } = useService.getState();
  if (chosen !== null) {
    choose(null);
    return;
  }
  const { about, drop } = useRunQuestion.getState();
  const { parts, close } = usePlacing.getState();
  if (parts.length > 0) {
    close();
    return;
  }
  if (about === 'alternatives') {
    drop();
    return;
  }
  if (tool === 'select') select(null);
  else setTool('select');
}
