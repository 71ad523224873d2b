import { useApp } from '../store/app';
import { chosenThings } from '../store/chosen';
import { lineInHand } from '../store/select';
import type { Selection } from '../store/types';

/** Why a command cannot be given now, in words; null when it can. */
type Why = () => string | null;

export const needsBoat: Why = () => (useApp.getState().boat === null ? 'Open a boat first' : null);

export const needsSelection: Why = () => (useApp.getState().selection === null ? 'Select something first' : null);

export const needsKind =
  (kind: Selection['kind'], words: string): Why =>
  () =>
    useApp.getState().selection?.kind === kind ? null : `Select ${words} first`;

export const needsThings =
  (least: number): Why =>
  () => {
    if (chosenThings().length >= least) return null;
    return least === 1
      ? 'Select a part or a fixture first'
      : `Select ${least === 2 ? 'two' : 'three'} things or more first`;
  };

export const needsRun: Why = () => (lineInHand(useApp.getState().selection) === null ? 'Select a run first' : null);

/** Of the boat as a whole: an answer that belongs to it. */
export const needsReport: Why = () => {
  const { boat, report } = useApp.getState();
  if (boat === null) return 'Open a boat first';
  return report === null ? 'The boat is still being checked' : null;
};
