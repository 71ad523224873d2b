import type { Spare } from '../../runs/spare/spare';
import { lengthText } from './quantity-text';

/** What to do with the length of a supplied hose that its run does not need; empty where that is next to nothing. */
export function spareText(spare: Spare, length: (metres: number) => string = lengthText): string {
  switch (spare.kind) {
    case 'none':
      return '';
    case 'cut':
      return `cut to ${length(spare.toM)}`;
    case 'bulge':
      return `${spare.count === 1 ? 'lay it in a bulge that stands' : `lay it in ${spare.count} bulges side by side that stand`} out ${length(spare.heightM)} over ${length(spare.spanM)} of the run`;
    case 'coil':
      return `coil it in ${spare.count === 1 ? 'one turn' : `${spare.count} turns`} of ${length(spare.heightM)} across`;
    case 'wider':
      return `lead one bend ${length(spare.heightM)} wider`;
    case 'noPlace':
      return 'no free place for it was found beside the run';
  }
}
