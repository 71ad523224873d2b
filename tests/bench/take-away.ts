import type { Boat } from '@core/boat/schema/boat';
import { findings } from '@core/engine/finding-stages';
import type { Report } from '@core/engine/report';
import { hull, layout } from '@core/engine/shape-stages';
import { lineIds, type Source, sourceOf } from '@core/engine/source';
import { spare } from '@core/engine/spare-stages';
import { Store } from '@core/engine/store';
import { takeoff } from '@core/engine/takeoff-stages';
import type { PrintContext } from '@core/output/sheets/context';
import { generalSheets } from '@core/output/sheets/general/general';
import { openPress } from '@core/output/sheets/pdf';
import { takeoffCsv } from '@core/output/takeoff/csv';
import { takeoffWorkbook } from '@core/output/workbook/workbook';
import { printFonts } from '../support/print-fonts';

/** Times of what is made of a boat to take away, milliseconds. */
export interface TakeAwayTimes {
  /** The list, once runs and findings stand. */
  readonly takeoff: number;
  readonly csv: number;
  readonly workbook: number;
  /** General arrangement and list as a PDF, the press opened anew. */
  readonly sheets: number;
}

/** Everything once. */
export async function takeAwayTimes(boat: Boat, arrangement: string, report: Report): Promise<TakeAwayTimes> {
  const store = new Store(sourceOf(boat, arrangement));
  store.read(findings);
  for (const id of store.read(lineIds)) store.read(spare, id);
  return {
    takeoff: await lasting(() => store.read(takeoff).length),
    csv: await lasting(() => takeoffCsv(report.takeoff).length),
    workbook: await lasting(async () => (await takeoffWorkbook(report.takeoff)).length),
    sheets: await lasting(() => printed(boat, report, store)),
  };
}

/** Milliseconds of a piece of work that says how much it made. */
async function lasting(work: () => number | Promise<number>): Promise<number> {
  const start = performance.now();
  const made = await work();
  if (made === 0) throw new Error('takeAwayTimes: nothing was made');
  return performance.now() - start;
}

async function printed(boat: Boat, report: Report, store: Pick<Store<Source>, 'read'>): Promise<number> {
  const press = await openPress(printFonts);
  const context: PrintContext = {
    paper: 'A3',
    lettering: press,
    date: '2026-01-01',
    boatName: boat.name,
    practice: boat.practice,
    fileName: 'boat.json',
    units: 'mm',
  };
  const made = generalSheets({ boat, report, layout: store.read(layout), hull: store.read(hull) }, context);
  if ('problem' in made) throw new Error(made.problem);
  const facts = { title: boat.name, subject: 'General arrangement', made: new Date(0) };
  return (await press.print(made.sheets, facts)).bytes.length;
}
