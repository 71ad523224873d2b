import type { Boat } from '../../../boat/schema/boat';
import type { Report } from '../../../engine/report';
import type { HullSurface } from '../../../shape/hull/types';
import type { Layout } from '../../../shape/layout/types';
import type { Made, PrintContext } from '../context';
import { titleFields } from '../context';
import { flowPages, framedPages } from '../flow';
import { framedSheet } from '../paper';
import { firstSheet } from './first-sheet';
import { listBlocks } from './list-blocks';
import { sceneOf } from './scene';

/** What the drawing and the lists are made from. */
export interface GeneralInput {
  readonly boat: Boat;
  readonly report: Report;
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  /** Place of the section; default: where it shows most parts. */
  readonly sectionX?: number;
}

/**
 * The first document to take away: the general arrangement in three views at one scale with numbered parts and lettered runs,
 * then the list, the cuts, the holes, the bags of hardware and the open findings with their cautions, as many sheets as they take.
 */
export function generalSheets(input: GeneralInput, context: PrintContext): Made {
  const scene = sceneOf(input);
  if (!scene) return { problem: 'There is nothing to draw yet: enter a hull, a compartment or a thing first.' };
  const pages = flowPages(listBlocks(input, context), context);
  const of = pages.length + 1;
  const subject = scene.arrangement;
  const drawn = firstSheet(scene, context);
  const measured = 'see the accuracy at the foot';
  const first = framedSheet(
    drawn.paper,
    titleFields(context, {
      sheet: 'General arrangement',
      subject,
      measured,
      scale: `1 : ${drawn.scale}`,
      number: 1,
      of,
    }),
    context.lettering,
    drawn.marks,
  );
  return {
    sheets: [
      first,
      ...framedPages(pages, { sheet: 'Parts and lengths', subject, measured, scale: 'none' }, context, { from: 2, of }),
    ],
  };
}
