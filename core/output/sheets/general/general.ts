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
import { arrangementText, type GeneralScene, sceneOf } from './scene';

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
  const { boat, report } = input;
  if (!scene && report.takeoff.length === 0)
    return { problem: 'There is nothing to draw yet: enter a hull, a compartment or a thing first.' };
  const pages = flowPages(listBlocks(input, context), context);
  const drawings = scene ? drawingsOf(scene, context) : [];
  const of = drawings.length + pages.length;
  const own = { subject: arrangementText(boat, report.arrangement), measured: 'see what it reckons with' };
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

/** The first sheet, and where the parts crowd on it a larger detail. */
function drawingsOf(scene: GeneralScene, context: PrintContext): readonly DetailSheet[] {
  const first = firstSheet(scene, context);
  return [{ ...first, caption: 'General arrangement' }, ...detailSheets(scene, first.scale, context)];
}
