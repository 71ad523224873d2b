import { checkGeometry } from './check-geometry';
import { checkReferences } from './check-references';
import { jsonShape } from './json-shape';
import { migrated } from './migrations';
import { notesOn } from './notes';
import { type PathPart, type Problem, pathText, problem, problemOf, withoutUnseen } from './problem';
import { problemOfIssue } from './problem-of-issue';
import { quantisedTree } from './quantise';
import { type Boat, boatSchema, FORMAT, LIMITS, SCHEMA_VERSION } from './schema/boat';
import { isPlain, unknownKeys } from './schema-walk';

export type ReadBoat =
  | { readonly ok: true; readonly boat: Boat; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** A boat nests 8 deep; more is no boat. */
const GREATEST_DEPTH = 40;
/** The complete sample counts 4 800; twenty times its things and lines, which is what is promised, 96 000. */
const MOST_VALUES = 250_000;
/** For records and lists that have no promise of their own: panels, openings, ports, corners ... */
const GREATEST_RECORD = 5000;
const MOST_PROBLEMS = 50;
const MOST_NOTES = 50;
const NEWER = 'This file was written by a newer version. It was not changed.';

/**
 * Reads the text of a boat file. A file is untrusted: size and depth are judged before it is parsed.
 * The boat is frozen, its numbers are those of the file to one micrometre, defaults are filled in,
 * and keys that the schema doesn't know are kept and named in the notes.
 */
export function readBoat(text: string): ReadBoat {
  if (text.length > LIMITS.bytes) {
    return refused(problemOf([], `${text.length} characters`, `at most ${LIMITS.bytes} can be read`));
  }
  const { depth, values, twice } = jsonShape(text, { depth: GREATEST_DEPTH, values: MOST_VALUES });
  if (depth > GREATEST_DEPTH) {
    return refused(problemOf([], `nested more than ${GREATEST_DEPTH} deep`, `at most ${GREATEST_DEPTH} is read`));
  }
  if (values > MOST_VALUES) {
    return refused(problemOf([], `more than ${MOST_VALUES} values long`, `at most ${MOST_VALUES} are read`));
  }
  let data: unknown;
  try {
    data = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch (error) {
    // What the parser says quotes the file, line breaks and all.
    const why = (error instanceof Error ? error.message : String(error)).replace(/\s+/g, ' ');
    return refused(problemOf([], 'not JSON', `a boat file is one JSON document (${withoutUnseen(why)})`));
  }
  if (twice) return refused(problemOf(twice, 'in the file twice', 'one of the two must get another name'));
  if (!isPlain(data)) return refused(problem([], data, 'a boat file is one JSON object'));
  if (data.format !== FORMAT) return refused(problem(['format'], data.format, `a boat file has "${FORMAT}"`));
  const hostile = hostileValue(data, []);
  if (hostile) return refused(hostile);
  const version = migrated(data);
  if (version.outcome === 'newer') {
    const found = problem(['schemaVersion'], version.version, `this program reads at most ${SCHEMA_VERSION}`);
    return refused({ ...found, message: `${found.message}. ${NEWER}` });
  }
  if (version.outcome === 'unknown') {
    return refused(problem(['schemaVersion'], version.version, 'a version from 1 on is needed'));
  }
  const result = checkBoat(version.data);
  if (!result.ok || version.from === version.data.schemaVersion) return result;
  return { ...result, notes: [`Brought from schema version ${version.from} to the present one.`, ...result.notes] };
}

/** Judges plain data of the current version as `readBoat` does a file: for edits and for boats made by program. */
export function checkBoat(data: unknown): ReadBoat {
  const tooMany = countProblems(data);
  if (tooMany.length > 0) return { ok: false, problems: tooMany };
  const whole = quantisedTree(data);
  const parsed = boatSchema.safeParse(whole);
  if (!parsed.success) {
    return { ok: false, problems: shortened(parsed.error.issues.map((issue) => problemOfIssue(issue, whole))) };
  }
  const boat = parsed.data;
  const problems = [...checkReferences(boat), ...checkGeometry(boat)];
  if (problems.length > 0) return { ok: false, problems: shortened(problems) };
  return { ok: true, boat: frozen(boat), notes: [...unknownNotes(boat), ...notesOn(boat)] };
}

function unknownNotes(boat: Boat): readonly string[] {
  const notes: string[] = [];
  let count = 0;
  unknownKeys(boat, boatSchema, (path) => {
    count += 1;
    if (count > MOST_NOTES) return;
    notes.push(`${pathText(path)} is not a key of the schema; it was kept and has no effect. A slip of the pen?`);
  });
  return count > MOST_NOTES
    ? [...notes, `${count} keys are not of the schema; the first ${MOST_NOTES} are listed.`]
    : notes;
}

const refused = (...problems: readonly Problem[]): ReadBoat => ({ ok: false, problems });

const shortened = (problems: readonly Problem[]): readonly Problem[] =>
  problems.length <= MOST_PROBLEMS
    ? problems
    : [
        ...problems.slice(0, MOST_PROBLEMS),
        problemOf([], `${problems.length} problems long`, `the first ${MOST_PROBLEMS} are listed`),
      ];

/**
 * What no boat can hold, wherever it stands, also under keys that the schema doesn't know: a key that would reach the prototype of a
 * copy made by assignment, a number that a file can't keep, more members than can be worked with.
 */
function hostileValue(value: unknown, path: readonly PathPart[]): Problem | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : problem(path, value, 'no file can hold that');
  if (typeof value !== 'object' || value === null) return null;
  const isList = Array.isArray(value);
  const members = Object.entries(value);
  // What has a limit of its own is told with that.
  if (members.length > GREATEST_RECORD && path.length > 1) {
    return problemOf(path, `${members.length} members long`, `at most ${GREATEST_RECORD} can be worked with`);
  }
  for (const [key, item] of members) {
    if (key === '__proto__') return problem([...path, key], item, 'this name cannot be used as a key');
    if (typeof item !== 'object' && typeof item !== 'number') continue;
    const found = hostileValue(item, [...path, isList ? Number(key) : key]);
    if (found) return found;
  }
  return null;
}

/** Records that are too long are refused before each of their members is judged. */
function countProblems(data: unknown): readonly Problem[] {
  if (!isPlain(data)) return [];
  const count = (key: string): number => (isPlain(data[key]) ? Object.keys(data[key]).length : 0);
  const problems: Problem[] = [];
  const limit = (path: string, found: number, most: number, what: string): void => {
    if (found > most) problems.push(problemOf([path], `${found} ${what}`, `at most ${most} can be worked with`));
  };
  limit('compartments', count('compartments'), LIMITS.compartments, 'compartments');
  limit('parts', count('parts') + count('fixtures'), LIMITS.things, 'fixtures and parts together');
  limit('lines', count('lines'), LIMITS.lines, 'lines');
  const hull = data.hull;
  if (isPlain(hull) && isPlain(hull.stations)) {
    limit('hull.stations', Object.keys(hull.stations).length, LIMITS.stations, 'stations');
  }
  const survey = isPlain(data.survey) ? data.survey : {};
  if (isPlain(survey.points)) {
    limit('survey.points', Object.keys(survey.points).length, LIMITS.surveyPoints, 'points');
  }
  if (isPlain(survey.readings)) {
    limit('survey.readings', Object.keys(survey.readings).length, LIMITS.readings, 'readings');
  }
  for (const [key, value] of Object.entries(data)) {
    if (isPlain(value)) limit(key, Object.keys(value).length, GREATEST_RECORD, 'records');
  }
  return problems;
}

function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const member of Object.values(value)) frozen(member);
  }
  return value;
}
