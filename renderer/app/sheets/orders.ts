import type { Boat, Thing } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import type { Made, PrintContext } from '@core/output/sheets/context';
import type { NextReading } from '@core/rules/next-reading';
import { useApp } from '../../store/app';
import { hullOf, layoutOf } from '../../store/derived';
import { usePaper } from '../../store/paper';
import { documentsNow } from '../commands';

/** The documents that the window prints. What draws them is loaded when one is asked for. */

/** Whose sheets they are: the open boat's, unless they are about something that belongs to none. */
type Owner = Pick<PrintContext, 'boatName' | 'fileName'>;

const NO_BOAT: Owner = { boatName: 'none yet', fileName: '' };

async function order(
  name: string,
  subject: string,
  make: (context: PrintContext) => Promise<Made>,
  owner?: Owner,
): Promise<void> {
  const { boat, document, displayUnits } = useApp.getState();
  const { boatName, fileName } = owner ?? (boat ? { boatName: boat.name, fileName: document.fileName } : NO_BOAT);
  await documentsNow()?.savePdf({
    name,
    subject,
    make: (lettering, date) =>
      make({
        paper: usePaper.getState().paper,
        lettering,
        date,
        boatName,
        practice: boat?.practice ?? 'isoSmallCraft',
        fileName,
        units: displayUnits,
      }),
  });
}

/** A part or a fixture as cardboard, on the paper that is chosen. It need not be aboard of the boat that is open. */
export function printMockUp(thing: Thing): Promise<void> {
  const { boat } = useApp.getState();
  const isAboard = [...Object.values(boat?.parts ?? {}), ...Object.values(boat?.fixtures ?? {})].includes(thing);
  return order(
    `Mock-up of ${thing.name}`,
    'Cardboard mock-up, full size',
    async (context) => {
      const { mockUpSheets } = await import('@core/output/sheets/mock-up/mock-up');
      return mockUpSheets(thing, context);
    },
    isAboard ? undefined : NO_BOAT,
  );
}

/** The drawing with numbered parts and lettered runs, then the list and what goes with it. */
export const printGeneral = (boat: Boat, report: Report): Promise<void> =>
  order(`General arrangement of ${boat.name}`, 'General arrangement, parts and lengths', async (context) => {
    const { generalSheets } = await import('@core/output/sheets/general/general');
    const { arrangementId } = useApp.getState();
    return generalSheets({ boat, report, layout: layoutOf(boat, arrangementId), hull: hullOf(boat) }, context);
  });

/** What to measure a compartment by; without one, the freeboards and level marks. */
export const printSurvey = (boat: Boat, compartment: string | null): Promise<void> =>
  order(
    compartment === null
      ? `How ${boat.name} floats, to measure`
      : `Survey of ${boat.compartments[compartment]?.name ?? compartment}`,
    'Survey sheet',
    async (context) => {
      const hull = hullOf(boat);
      if (compartment === null) {
        const { floatingSheets } = await import('@core/output/sheets/survey/floating-sheet');
        return { sheets: floatingSheets(boat, hull, context) };
      }
      const { compartmentSheets } = await import('@core/output/sheets/survey/compartment-sheet');
      const layout = layoutOf(boat, useApp.getState().arrangementId);
      return { sheets: compartmentSheets(boat, layout, hull, compartment, context) };
    },
  );

/** Every compartment of the boat, then how it floats. */
export const printWholeSurvey = (boat: Boat): Promise<void> =>
  order(`Survey of ${boat.name}`, 'Survey sheets', async (context) => {
    const { surveySheets } = await import('@core/output/sheets/survey/whole-survey');
    return { sheets: surveySheets(boat, layoutOf(boat, useApp.getState().arrangementId), hullOf(boat), context) };
  });

/** The readings that would settle most verdicts, to fill in aboard. */
export const printNextReadings = (boat: Boat, readings: readonly NextReading[]): Promise<void> =>
  order(`Measure next on ${boat.name}`, 'Readings that settle most', async (context) => {
    const { nextReadingSheets } = await import('@core/output/sheets/measure-next');
    return { sheets: nextReadingSheets(boat, readings, useApp.getState().report?.findings ?? [], context) };
  });
