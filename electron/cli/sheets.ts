import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import path from 'node:path';
import type { Boat } from '@core/boat/schema/boat';
import { atOnce } from '@core/engine/in-slices';
import { startNextReadings, USUAL_READINGS } from '@core/engine/measure-next/next-readings';
import type { Report } from '@core/engine/report';
import type { Made, PrintContext } from '@core/output/sheets/context';
import { generalSheets } from '@core/output/sheets/general/general';
import { nextReadingSheets } from '@core/output/sheets/measure-next';
import { mockUpSheets } from '@core/output/sheets/mock-up/mock-up';
import type { PaperSize } from '@core/output/sheets/paper-size';
import { type FontBytes, openPress, type Press } from '@core/output/sheets/pdf';
import { surveySheets } from '@core/output/sheets/survey/whole-survey';
import { hullSurface } from '@core/shape/hull/surface';
import { deriveLayout } from '@core/shape/layout/derive';
import { notWritten } from './list';

export interface SheetsAsked {
  readonly boat: Boat;
  readonly report: Report;
  /** Name of the boat file. */
  readonly fileName: string;
  readonly paper: PaperSize;
  readonly folder: string;
  /** The day that is printed on the sheets. */
  readonly today: Date;
}

/** Files that were written, and what could not be made or written, one line each. */
export interface SheetsWritten {
  readonly files: readonly string[];
  readonly notMade: readonly string[];
  readonly problems: readonly string[];
}

interface Document {
  readonly name: string;
  readonly subject: string;
  readonly make: (context: PrintContext) => Made;
}

/** Every document that can be made of a boat, as PDF files in one folder and nowhere else. */
export async function writeSheets(asked: SheetsAsked): Promise<SheetsWritten> {
  const { boat, paper, folder, fileName, today } = asked;
  const press = await openPress(fontBytes());
  const context: PrintContext = {
    paper,
    lettering: press,
    date: dayOf(today),
    boatName: boat.name,
    practice: boat.practice,
    fileName,
    units: 'mm',
  };
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    return { files: [], notMade: [], problems: [notWritten(folder, error)] };
  }
  const files: string[] = [];
  const notMade: string[] = [];
  const problems: string[] = [];
  const used = new Set<string>();
  for (const document of documentsOf(asked)) {
    const made = document.make(context);
    if ('problem' in made) {
      notMade.push(`${document.name}: ${made.problem}`);
      continue;
    }
    if (made.sheets.length === 0) continue;
    const file = path.join(folder, `${freeName(document.name, used)}.pdf`);
    try {
      await replace(file, await printed(press, made.sheets, document, boat.name, today));
      files.push(file);
    } catch (error) {
      problems.push(notWritten(file, error));
    }
  }
  return { files, notMade, problems };
}

async function printed(
  press: Press,
  sheets: Parameters<Press['print']>[0],
  { name, subject }: Document,
  boatName: string,
  made: Date,
): Promise<Uint8Array> {
  const { bytes } = await press.print(sheets, { title: `${name}, ${boatName}`, subject, made });
  return bytes;
}

function documentsOf({ boat, report }: SheetsAsked): readonly Document[] {
  const { arrangement } = report;
  const newHoles = arrangement === null ? {} : (boat.arrangements[arrangement]?.newHoles ?? {});
  const { compartments, panels, newHoleCostM } = boat;
  const layout = deriveLayout({ compartments, panels, newHoles, newHoleCostM });
  const hull = boat.hull ? hullSurface(boat.hull) : null;
  return [
    {
      name: 'General arrangement and list',
      subject: 'General arrangement, parts and lengths',
      make: (context) => generalSheets({ boat, report, layout, hull }, context),
    },
    {
      name: 'Measure this next',
      subject: 'Readings that settle most',
      make: (context) => {
        const options = arrangement === null ? {} : { arrangement };
        const readings = atOnce(startNextReadings(boat, { most: USUAL_READINGS, ...options }));
        return { sheets: readings.length === 0 ? [] : nextReadingSheets(boat, readings, report.findings, context) };
      },
    },
    {
      name: 'Survey',
      subject: 'Survey sheets',
      make: (context) => ({ sheets: surveySheets(boat, layout, hull, context) }),
    },
    ...Object.entries(boat.parts)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([id, part]) => ({
        name: `Mock-up ${part.tag ?? id} ${part.name}`,
        subject: 'Cardboard mock-up, full size',
        make: (context: PrintContext) => mockUpSheets(part, context),
      })),
  ];
}

const LONGEST_NAME = 80;

/** A file name that is a name in the folder and nothing else, and that no other document of this run has. */
export function freeName(name: string, used: Set<string>): string {
  const plain =
    name
      .normalize('NFC')
      .replace(/[^\p{L}\p{N} -]/gu, '')
      .trim()
      .slice(0, LONGEST_NAME)
      .trim() || 'Sheet';
  for (let k = 1; ; k += 1) {
    const tried = k === 1 ? plain : `${plain} ${k}`;
    // Some file systems hold names that differ by case alone for one.
    const key = tried.toLowerCase();
    if (used.has(key)) continue;
    used.add(key);
    return tried;
  }
}

/** Puts a file there whole or not at all. What stood under its name is replaced, a link itself and not what it leads to. */
async function replace(file: string, content: Uint8Array): Promise<void> {
  const temporary = path.join(path.dirname(file), `.underberth.${process.pid}-${randomBytes(6).toString('hex')}.tmp`);
  try {
    const handle = await open(temporary, 'wx');
    try {
      await handle.writeFile(content);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(temporary, file);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
}

const FONTS = '@expo-google-fonts/barlow-semi-condensed';

/** The letters that the window prints with, from their package. */
function fontBytes(): FontBytes {
  const { resolve } = createRequire(import.meta.url);
  const face = (name: string): Uint8Array => new Uint8Array(readFileSync(resolve(`${FONTS}/${name}.ttf`)));
  return {
    plain: face('500Medium/BarlowSemiCondensed_500Medium'),
    strong: face('600SemiBold/BarlowSemiCondensed_600SemiBold'),
    place: face('500Medium_Italic/BarlowSemiCondensed_500Medium_Italic'),
  };
}

const two = (value: number): string => String(value).padStart(2, '0');
const dayOf = (day: Date): string => `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
