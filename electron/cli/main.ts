import path from 'node:path';
import { analyze } from '@core/analyze';
import { boatJsonSchema } from '@core/boat/json-schema';
import type { Boat } from '@core/boat/schema/boat';
import { atOnce } from '@core/engine/in-slices';
import { NoSuchGroup } from '@core/engine/placement/moved-group';
import { placesFor } from '@core/engine/placement/places';
import { placesJsonSchema, printedPlaces } from '@core/engine/placement/printed-places';
import type { Report } from '@core/engine/report';
import { reportJsonSchema } from '@core/engine/report-schema';
import { startService } from '@core/engine/service/service';
import { serviceJsonSchema } from '@core/engine/service/service-schema';
import { surveyReport } from '@core/engine/survey-report';
import { tableOfBoat } from '@core/shape/hull/hydrostatic-table';
import { type Command, commandOf, type SchemaOf, USAGE } from './arguments';
import { boatOnDisk } from './boat-file';
import { checkText, printable } from './check-text';
import { attitudeNotes, hullText, noTableText } from './hull-text';
import { listed } from './list';
import { placesText } from './place-text';
import { serviceText } from './service-text';
import { surveyText } from './survey-text';
import { CLEAN, exitCodeOf, placesExitCodeOf, serviceExitCodeOf, UNUSABLE } from './verdict';

const toOutput = (text: string): void => void process.stdout.write(text);
const toError = (...lines: readonly string[]): void => {
  for (const line of lines) process.stderr.write(`underberth: ${printable(line)}\n`);
};
const SCHEMAS: Readonly<Record<SchemaOf, () => Record<string, unknown>>> = {
  boat: boatJsonSchema,
  report: reportJsonSchema,
  service: serviceJsonSchema,
  place: placesJsonSchema,
};
const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/** Runs one command; the answer is the exit code. Results go to standard output, troubles to standard error. */
export async function run(words: readonly string[]): Promise<number> {
  // Whoever reads only the first lines closes the pipe: no trouble of ours.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  const command = commandOf(words);
  if ('wrong' in command) {
    toError(command.wrong);
    process.stderr.write(USAGE);
    return UNUSABLE;
  }
  switch (command.verb) {
    case 'help':
      toOutput(USAGE);
      return CLEAN;
    case 'schema':
      toOutput(json(SCHEMAS[command.of]()));
      return CLEAN;
    case 'check':
      return judged(command, (report, boat, notes) => {
        if (command.json) toError(...notes);
        toOutput(command.json ? json(report) : `${checkText(report, boat, notes)}\n`);
        return exitCodeOf(report, command.strict);
      });
    case 'list':
      return judged(command, async (report, boat, notes) => {
        toError(...notes);
        const list = await listed(report, boat, command);
        if ('problems' in list) {
          toError(...list.problems);
          return UNUSABLE;
        }
        toOutput(list.output);
        return CLEAN;
      });
    case 'sheets':
      return judged(command, async (report, boat, notes) => {
        toError(...notes);
        return printed(command, report, boat);
      });
    case 'service':
      return serviced(command);
    case 'place':
      return sought(command);
    case 'hull':
      return floated(command);
    case 'survey':
      return adjusted(command);
  }
}

async function judged(
  { file, arrangement }: Extract<Command, { arrangement: string | null }>,
  say: (report: Report, boat: Boat, notes: readonly string[]) => number | Promise<number>,
): Promise<number> {
  const read = await boatOnDisk(file, arrangement);
  if (!read.ok) {
    toError(...read.problems);
    return UNUSABLE;
  }
  return say(
    analyze(read.boat, { deeper: true, ...(arrangement === null ? {} : { arrangement }) }),
    read.boat,
    read.notes,
  );
}

/** Tasks that the plan leaves undone count against it, as faults do. */
async function serviced(asked: Extract<Command, { verb: 'service' }>): Promise<number> {
  const read = await boatOnDisk(asked.file, asked.arrangement);
  if (!read.ok) {
    toError(...read.problems);
    return UNUSABLE;
  }
  const { boat, notes } = read;
  const people = Object.keys(boat.people ?? {});
  if (asked.person !== null && !people.includes(asked.person)) {
    toError(
      `people.${asked.person} is missing, ${people.length === 0 ? 'the boat has none' : `the boat has ${people.join(', ')}`}`,
    );
    return UNUSABLE;
  }
  const report = atOnce(
    startService(boat, {
      ...(asked.arrangement === null ? {} : { arrangement: asked.arrangement }),
      ...(asked.person === null ? {} : { person: asked.person }),
    }),
  );
  if (asked.json) toError(...notes);
  toOutput(asked.json ? json(report) : `${printable(serviceText(report, boat, notes))}\n`);
  return serviceExitCodeOf(report);
}

async function sought(asked: Extract<Command, { verb: 'place' }>): Promise<number> {
  const read = await boatOnDisk(asked.file, asked.arrangement);
  if (!read.ok) {
    toError(...read.problems);
    return UNUSABLE;
  }
  const { boat, notes } = read;
  try {
    const report = placesFor(boat, asked.parts, asked.arrangement === null ? {} : { arrangement: asked.arrangement });
    if (asked.json) toError(...notes);
    toOutput(asked.json ? json(printedPlaces(report, boat)) : `${printable(placesText(report, boat, notes))}\n`);
    return placesExitCodeOf(report);
  } catch (error) {
    if (!(error instanceof NoSuchGroup)) throw error;
    const known = Object.keys(boat.parts);
    toError(error.message, known.length === 0 ? 'the boat has no parts' : `the boat has the parts ${known.join(', ')}`);
    return UNUSABLE;
  }
}

async function floated(asked: Extract<Command, { verb: 'hull' }>): Promise<number> {
  const read = await boatOnDisk(asked.file, null);
  if (!read.ok) {
    toError(...read.problems);
    return UNUSABLE;
  }
  const table = tableOfBoat(read.boat, asked);
  if (!table.ok) {
    toError(noTableText(table.why));
    return UNUSABLE;
  }
  const { rows, sheerUnderM } = table;
  toError(...attitudeNotes(read.boat, table.attitude));
  if (sheerUnderM > 0)
    toError(`the sheer lies up to ${sheerUnderM.toFixed(3)} m under water; above it the hull counts as closed flat`);
  toOutput(asked.json ? json({ rows }) : `${printable(hullText(table, read.boat.name))}\n`);
  return CLEAN;
}

async function adjusted(asked: Extract<Command, { verb: 'survey' }>): Promise<number> {
  const read = await boatOnDisk(asked.file, null);
  if (!read.ok) {
    toError(...read.problems);
    return UNUSABLE;
  }
  const { report, notes } = surveyReport(read.boat);
  if (asked.json) toError(...notes);
  toOutput(asked.json ? json(report) : `${printable(surveyText(report, notes, read.boat.name))}\n`);
  // Readings of which none could be used are no survey.
  const readings = Object.keys(read.boat.survey?.readings ?? {}).length;
  return readings > 0 && report.residuals.length === 0 ? UNUSABLE : CLEAN;
}

/** Names the files that were written on standard output, what could not be made on standard error. */
async function printed(
  { file, folder, paper }: Extract<Command, { verb: 'sheets' }>,
  report: Report,
  boat: Boat,
): Promise<number> {
  const { writeSheets } = await import('./sheets');
  const written = await writeSheets({ boat, report, folder, paper, fileName: path.basename(file), today: new Date() });
  toOutput(written.files.map((name) => `${printable(name)}\n`).join(''));
  toError(...written.notMade, ...written.problems);
  return written.problems.length > 0 ? UNUSABLE : CLEAN;
}
