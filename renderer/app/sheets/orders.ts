import type { Thing } from '@core/boat/schema/boat';
import type { Made, PrintContext } from '@core/output/sheets/context';
import { useApp } from '../../store/app';
import { usePaper } from '../../store/paper';
import { documentsNow } from '../commands';

/** The documents that the window prints. What draws them is loaded when one is asked for. */

async function order(name: string, subject: string, make: (context: PrintContext) => Promise<Made>): Promise<void> {
  const { boat, document, displayUnits } = useApp.getState();
  await documentsNow()?.savePdf({
    name,
    subject,
    make: (lettering, date) =>
      make({
        paper: usePaper.getState().paper,
        lettering,
        date,
        boatName: boat?.name ?? '',
        practice: boat?.practice ?? 'isoSmallCraft',
        fileName: document.fileName,
        units: displayUnits,
      }),
  });
}

/** A part or a fixture as cardboard, on the paper that is chosen. */
export const printMockUp = (thing: Thing): Promise<void> =>
  order(`Mock-up of ${thing.name}`, 'Cardboard mock-up, full size', async (context) => {
    const { mockUpSheets } = await import('@core/output/sheets/mock-up/mock-up');
    return mockUpSheets(thing, context);
  });
