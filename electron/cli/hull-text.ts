import type { Boat } from '@core/boat/schema/boat';
import type { BoatTable, HydrostaticRow, NoTable } from '@core/shape/hull/hydrostatic-table';
import { sightingResiduals } from '@core/shape/hull/sightings';
import type { Attitude } from '@core/shape/hull/types';

const COLUMNS: readonly {
  readonly head: string;
  readonly unit: string;
  readonly digits: number;
  readonly value: (row: HydrostaticRow) => number;
}[] = [
  { head: 'draught', unit: 'm', digits: 3, value: (row) => row.draughtM },
  { head: 'heel', unit: 'deg', digits: 1, value: (row) => row.heelDeg },
  { head: 'displ.', unit: 'kg', digits: 0, value: (row) => row.displacementKg },
  { head: 'volume', unit: 'm3', digits: 3, value: (row) => row.volumeM3 },
  { head: 'waterplane', unit: 'm2', digits: 2, value: (row) => row.waterplaneAreaM2 },
  { head: 'LCB', unit: 'm', digits: 3, value: (row) => row.lcbM },
  { head: 'LCF', unit: 'm', digits: 3, value: (row) => row.lcfM },
  { head: 'KB', unit: 'm', digits: 3, value: (row) => row.kbM },
  { head: 'BM', unit: 'm', digits: 3, value: (row) => row.bmM },
  { head: 'BML', unit: 'm', digits: 2, value: (row) => row.bmlM },
  { head: 'wetted', unit: 'm2', digits: 2, value: (row) => row.wettedSurfaceM2 },
  { head: 'immersion', unit: 'kg/cm', digits: 1, value: (row) => row.immersionKgPerCm },
  { head: 'trim', unit: 'Nm/cm', digits: 0, value: (row) => row.momentToTrimNmPerCm },
  { head: 'sinkage', unit: 'm', digits: 3, value: (row) => row.sinkageM },
  { head: 'yB', unit: 'm', digits: 3, value: (row) => row.yBM },
  { head: 'zB', unit: 'm', digits: 3, value: (row) => row.zBM },
];

const REFERENCE_WORDS = {
  freeboards: 'measured freeboards',
  levelMarks: 'level marks',
  weights: 'the mass entered, nothing measured',
  frame: 'z = 0 as drawn, nothing measured',
} as const;

/** What a person reads after `hull`: on what it rests, then a table. */
export function hullText(table: Extract<BoatTable, { ok: true }>, boatName: string): string {
  const cells = [
    COLUMNS.map(({ head }) => head),
    COLUMNS.map(({ unit }) => unit),
    ...table.rows.map((row) => COLUMNS.map(({ value, digits }) => withoutMinus(value(row).toFixed(digits)))),
  ];
  const widths = COLUMNS.map((_, c) => Math.max(...cells.map((line) => line[c]?.length ?? 0)));
  const lines = cells.map((line) => line.map((cell, c) => cell.padStart(widths[c] ?? 0)).join('  '));
  return [`${boatName}, reference attitude from ${REFERENCE_WORDS[table.attitude.source]}`, ...lines].join('\n');
}

/** A zero is a zero whichever way it was rounded. */
const withoutMinus = (text: string): string => (/^-0(\.0*)?$/.test(text) ? text.slice(1) : text);

/** One sentence on why there is no table. */
export function noTableText(why: NoTable): string {
  switch (why.kind) {
    case 'noHull':
      return 'hull is missing: draw at least two stations';
    case 'cannotFloat':
      return `weights.displacementKg is ${why.displacementKg}, but the hull is under water to its sheer with ${Math.round(why.greatestKg)} kg`;
    case 'cannotBalance':
      return `weights.lcgM is ${why.lcgM}: no trim of the hull brings its centre of buoyancy, at x = ${why.lcbM.toFixed(3)} m on even keel, under it`;
    case 'dry':
      return `the water does not reach the hull: it lies ${why.belowKeelM.toFixed(3)} m below its lowest point in the reference attitude`;
    case 'draughtTooGreat':
      return `--draught is ${why.draughtM}; the lowest point of the sheer is at a draught of ${why.greatestM.toFixed(3)} m, and the water can't be above it`;
  }
}

/** Beyond this no boat lies in cruising trim, degrees: a freeboard or its place is wrong. From common practice, no source. */
const GREATEST_SLOPE_DEG = 15;

/** What of the measured points should be doubted. */
export function attitudeNotes(boat: Boat, { trimDeg, listDeg, residualM, source }: Attitude): readonly string[] {
  const notes: string[] = [];
  const { points, suspect, isUndecided } = sightingResiduals(boat);
  const doubted = points.find(({ id }) => id === suspect);
  if (doubted?.offM != null)
    notes.push(
      `reference.${doubted.kind}.${doubted.id} is off by ${Math.abs(doubted.offM).toFixed(3)} m from what the other points say: measure again`,
    );
  else if (isUndecided)
    notes.push(
      `the measured points disagree by up to ${residualM.toFixed(3)} m: one is off, another one would tell which`,
    );
  if (source !== 'frame' && Math.max(Math.abs(trimDeg), Math.abs(listDeg)) > GREATEST_SLOPE_DEG)
    notes.push(
      `the reference attitude has a trim of ${Math.abs(trimDeg).toFixed(0)} degrees and a list of ${Math.abs(listDeg).toFixed(0)}; no boat lies beyond ${GREATEST_SLOPE_DEG}: see to freeboards, marks and their places`,
    );
  return notes;
}
