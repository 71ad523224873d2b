import type { Boat } from '../../../boat/schema/boat';
import type { Report } from '../../../engine/report';
import type { HullSurface } from '../../../shape/hull/types';
import type { Layout } from '../../../shape/layout/types';
import type { Made, PrintContext } from '../context';
import { titleFields } from '../context';
import { flowPages, framedPages } from '../flow';
import { framedSheet } from '../paper';
import { type DetailSheet, detailSheets } from './detail-sheets';
import { firstSheet } from './first-sheet';
import { listBlocks } from './list-blocks';
import { sceneOf } from './scene';

/** What the drawing and the lists are made from. */
export interface GeneralInput {
  readonly boat: Boat;
  readonly report: Report;
  readonly layout: Layout;
  readonly hull: HullSurface | null;
}

/**
 * The first document to take away: the general arrangement in three views at one scale with numbered parts and lettered runs,
 * where it is crowded a larger detail, then the list, the cuts, the holes, the bags of hardware and the open findings with their cautions, as many sheets as they take.
 */
export function generalSheets(input: GeneralInput, context: PrintContext): Made {
  const scene = sceneOf(input);
  if (!scene) return { problem: 'There is nothing to draw yet: enter a hull, a compartment or a thing first.' };
  const pages = flowPages(listBlocks(input, context), context);
  const first = firstSheet(scene, context);
  const drawings: readonly DetailSheet[] = [
    { ...first, caption: 'General arrangement' },
    ...detailSheets(scene, first.scale, context),
  ];
  const of = drawings.length + pages.length;
  const own = { subject: scene.arrangement, measured: 'see the accuracy on sheet 1' };
  return {
    sheets: [
      ...drawings.map(({ paper, scale, caption, marks }, i) =>
        framedSheet(
          paper,
          titleFields(context, { ...own, sheet: caption, scale: `1 : ${scale}`, number: i + 1, of }),
          context.lettering,
          marks,
        ),
      ),
      ...framedPages(pages, { ...own, sheet: 'Parts and lengths', scale: 'none' }, context, {
        from: drawings.length + 1,
        of,
      }),
    ],
  };
}
