import { checkGeometry } from './check-geometry';
import { checkReferences } from './check-references';
import { migrated } from './migrations';
import { notesOn } from './notes';
import { type Problem, pathText, problem, problemOf } from './problem';
import { problemOfIssue } from './problem-of-issue';
import { quantisedTree } from './quantise';
import { type Boat, boatSchema, FORMAT, LIMITS, SCHEMA_VERSION } from './schema/boat';
import { isPlain, unknownKeys } from './schema-walk';

export type ReadBoat =
  | { readonly ok: true; readonly boat: Boat; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** A boat nests 8 deep; more is no boat. */
const GREATEST_DEPTH = 40;
/** For records that have no promise of their own: panels, openings, arrangements ... */
const GREATEST_RECORD = 5000;
const MOST_PROBLEMS = 50;
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
  const depth = depthOf(text);
  if (depth > GREATEST_DEPTH)
    return refused(problemOf([], `nested ${depth} deep`, `at most ${GREATEST_DEPTH} is read`));
  let data: unknown;
  try {
    data = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return refused(problemOf([], 'not JSON', `a boat file is one JSON document (${why})`));
  }
  if (!isPlain(data)) return refused(problem([], data, 'a boat file is one JSON object'));
  if (data.format !== FORMAT) return refused(problem(['format'], data.format, `a boat file has "${FORMAT}"`));
  const hostile = forbiddenKey(data, []);
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
  const notes: string[] = [];
  unknownKeys(boat, boatSchema, (path) =>
    notes.push(`${pathText(path)} is not a key of the schema; it was kept and has no effect. A slip of the pen?`),
  );
  return { ok: true, boat: frozen(boat), notes: [...notes, ...notesOn(boat)] };
}

const refused = (...problems: readonly Problem[]): ReadBoat => ({ ok: false, problems });

const shortened = (problems: readonly Problem[]): readonly Problem[] =>
  problems.length <= MOST_PROBLEMS
    ? problems
    : [
        ...problems.slice(0, MOST_PROBLEMS),
        problemOf([], `${problems.length} problems long`, `the first ${MOST_PROBLEMS} are listed`),
      ];

/** Greatest nesting of braces and brackets outside strings, so that a hostile file is refused before it is parsed. */
function depthOf(text: string): number {
  let depth = 0;
  let deepest = 0;
  let inString = false;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (inString) {
      if (code === 0x5c) i++;
      else if (code === 0x22) inString = false;
    } else if (code === 0x22) inString = true;
    else if (code === 0x7b || code === 0x5b) deepest = Math.max(deepest, ++depth);
    else if (code === 0x7d || code === 0x5d) depth--;
  }
  return deepest;
}

/** A key that would reach the prototype of a copy made by assignment. */
function forbiddenKey(value: unknown, path: readonly (string | number)[]): Problem | null {
  if (Array.isArray(value)) {
    for (const [index, item] of value.entries()) {
      const found = typeof item === 'object' ? forbiddenKey(item, [...path, index]) : null;
      if (found) return found;
    }
    return null;
  }
  if (!isPlain(value)) return null;
  for (const [key, item] of Object.entries(value)) {
    if (key === '__proto__') return problem([...path, key], item, 'this name cannot be used as a key');
    const found = typeof item === 'object' ? forbiddenKey(item, [...path, key]) : null;
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
