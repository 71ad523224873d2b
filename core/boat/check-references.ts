import { LINE_KINDS } from './catalogue/line-kinds';
import { type PathPart, type Problem, problem } from './problem';
import type { Boat, Line, Thing } from './schema/boat';

/** Words that stand for a side of a panel or opening that is no compartment. */
export const SKIN = 'skin';
export const UNDRAWN = 'undrawn';
export const OUTSIDE = 'outside';

/** The fixture or part of that id. */
export const thingOf = (boat: Boat, id: string): Thing | undefined =>
  Object.hasOwn(boat.fixtures, id) ? boat.fixtures[id] : Object.hasOwn(boat.parts, id) ? boat.parts[id] : undefined;

/** Every id that one record of a boat uses for another must exist. */
export function checkReferences(boat: Boat): readonly Problem[] {
  const problems: Problem[] = [];
  const report = (path: readonly PathPart[], value: unknown, limit: string): void => {
    problems.push(problem(path, value, limit));
  };
  const needs = (path: readonly PathPart[], id: string | undefined, records: object, what: string): void => {
    if (id !== undefined && !Object.hasOwn(records, id)) {
      report(path, id, `no ${what} has that id${suggestion(id, Object.keys(records))}`);
    }
  };
  const things = { ...boat.fixtures, ...boat.parts };

  for (const id of Object.keys(boat.parts)) {
    if (Object.hasOwn(boat.fixtures, id)) {
      report(['parts', id], id, 'a fixture has that id already; fixtures and parts share one set of ids');
    }
  }
  for (const [group, records] of [
    ['fixtures', boat.fixtures],
    ['parts', boat.parts],
  ] as const) {
    for (const [id, thing] of Object.entries(records)) checkThing(thing, [group, id], report);
  }
  for (const [id, line] of Object.entries(boat.lines)) checkLine(boat, line, ['lines', id], things, report);
  for (const [id, { kind }] of Object.entries(boat.suppliedLengths ?? {}))
    checkLineKind(boat, kind, ['suppliedLengths', id, 'kind'], report);

  const side = (path: readonly PathPart[], name: string, words: readonly string[]): void => {
    if (!words.includes(name)) needs(path, name, boat.compartments, 'compartment');
  };
  for (const [id, panel] of Object.entries(boat.panels)) {
    if (panel.setAside) continue;
    panel.between.forEach((name, index) => {
      side(['panels', id, 'between', index], name, index === 0 ? [] : [SKIN, UNDRAWN]);
    });
    if (panel.between[0] === panel.between[1]) {
      report(['panels', id, 'between'], panel.between, 'a panel stands between two different spaces');
    }
  }
  for (const [id, opening] of Object.entries(boat.openings)) {
    needs(['openings', id, 'compartment'], opening.compartment, boat.compartments, 'compartment');
    side(['openings', id, 'to'], opening.to, [OUTSIDE, UNDRAWN]);
    needs(['openings', id, 'standing'], opening.standing, boat.standingPlaces, 'standing place');
  }
  for (const [id, surface] of Object.entries(boat.mountingSurfaces)) {
    needs(['mountingSurfaces', id, 'compartment'], surface.compartment, boat.compartments, 'compartment');
  }
  for (const [id, place] of Object.entries(boat.standingPlaces)) {
    needs(['standingPlaces', id, 'compartment'], place.compartment, boat.compartments, 'compartment');
  }
  for (const [id, hole] of Object.entries(boat.flooding?.limberHoles ?? {})) {
    hole.between.forEach((name, index) => {
      side(['flooding', 'limberHoles', id, 'between', index], name, [UNDRAWN]);
    });
  }
  for (const [id, state] of Object.entries(boat.operatingStates)) {
    checkValves(state.valves, ['operatingStates', id, 'valves'], things, needs, report);
    state.running.forEach((thing, index) => {
      needs(['operatingStates', id, 'running', index], thing, things, 'fixture or part');
    });
  }
  needs(['currentArrangement'], boat.currentArrangement, boat.arrangements, 'arrangement');
  for (const id of Object.keys(boat.arrangements)) checkArrangement(boat, id, things, needs, report);
  return problems;
}

type Report = (path: readonly PathPart[], value: unknown, limit: string) => void;
type Needs = (path: readonly PathPart[], id: string | undefined, records: object, what: string) => void;

function checkThing(thing: Thing, path: readonly PathPart[], report: Report): void {
  const states = thing.valve?.states ?? [];
  const { normally } = thing.valve ?? {};
  if (normally !== undefined && !states.includes(normally)) {
    report([...path, 'valve', 'normally'], normally, `the valve has the states ${states.join(', ')}`);
  }
  const { reject } = thing.valve ?? {};
  if (reject !== undefined && !states.includes(reject)) {
    report([...path, 'valve', 'reject'], reject, `the valve has the states ${states.join(', ')}`);
  }
  for (const [id, passage] of Object.entries(thing.passages ?? {})) {
    passage.ports.forEach((port, index) => {
      if (!Object.hasOwn(thing.ports, port)) {
        const ports = Object.keys(thing.ports);
        report([...path, 'passages', id, 'ports', index], port, `no port has that id${suggestion(port, ports)}`);
      }
    });
    passage.when?.forEach((state, index) => {
      if (states.includes(state)) return;
      const limit = states.length > 0 ? `the valve has the states ${states.join(', ')}` : 'the thing has no valve';
      report([...path, 'passages', id, 'when', index], state, limit);
    });
  }
}

function checkLineKind(boat: Boat, kind: string, path: readonly PathPart[], report: Report): void {
  if (Object.hasOwn(boat.lineKinds, kind) || Object.hasOwn(LINE_KINDS, kind)) return;
  const known = [...Object.keys(boat.lineKinds), ...Object.keys(LINE_KINDS)];
  report(path, kind, `neither the boat's lineKinds nor the catalogue has that kind${suggestion(kind, known)}`);
}

function checkLine(
  boat: Boat,
  line: Line,
  path: readonly PathPart[],
  things: Readonly<Record<string, Thing>>,
  report: Report,
): void {
  checkLineKind(boat, line.kind, [...path, 'kind'], report);
  for (const end of ['from', 'to'] as const) {
    const { thing: id, port } = line[end];
    const thing = Object.hasOwn(things, id) ? things[id] : undefined;
    if (!thing) {
      const limit = `no fixture or part has that id${suggestion(id, Object.keys(things))}`;
      report([...path, end, 'thing'], id, limit);
    } else if (!Object.hasOwn(thing.ports, port)) {
      const ports = Object.keys(thing.ports);
      const has = ports.length > 0 ? `${id} has the ports ${ports.slice(0, 12).join(', ')}` : `${id} has no port`;
      report([...path, end, 'port'], port, has);
    }
  }
  if (line.from.thing === line.to.thing && line.from.port === line.to.port) {
    report([...path, 'to'], line.to, 'a line runs between two different ports');
  }
}

function checkValves(
  valves: Readonly<Record<string, string>>,
  path: readonly PathPart[],
  things: Readonly<Record<string, Thing>>,
  needs: Needs,
  report: Report,
): void {
  for (const [id, state] of Object.entries(valves)) {
    needs([...path, id], id, things, 'fixture or part');
    const thing = Object.hasOwn(things, id) ? things[id] : undefined;
    if (!thing) continue;
    const states = thing.valve?.states;
    if (!states) report([...path, id], state, `${id} has no valve`);
    else if (!states.includes(state)) report([...path, id], state, `the valve has the states ${states.join(', ')}`);
  }
}

function checkArrangement(
  boat: Boat,
  id: string,
  things: Readonly<Record<string, Thing>>,
  needs: Needs,
  report: Report,
): void {
  const arrangement = boat.arrangements[id];
  if (!arrangement) return;
  const path = ['arrangements', id];
  for (const [partId, place] of Object.entries(arrangement.places)) {
    const at = [...path, 'places', partId];
    if (Object.hasOwn(boat.fixtures, partId)) report(at, partId, 'it is a fixture, which has its own pose');
    else needs(at, partId, boat.parts, 'part');
    needs([...at, 'mountedOn'], place.mountedOn, boat.mountingSurfaces, 'mounting surface');
    place.wayIn?.forEach((opening, index) => {
      needs([...at, 'wayIn', index], opening, boat.openings, 'opening');
    });
  }
  for (const key of ['clipPoints', 'forbidden', 'pins'] as const) {
    for (const line of Object.keys(arrangement[key] ?? {})) needs([...path, key, line], line, boat.lines, 'line');
  }
  for (const [line, forbidden] of Object.entries(arrangement.forbidden ?? {})) {
    forbidden.forEach((name, index) => {
      needs([...path, 'forbidden', line, index], name, boat.compartments, 'compartment');
    });
  }
  arrangement.asBuilt?.forEach((part, index) => {
    needs([...path, 'asBuilt', index], part, boat.parts, 'part');
  });
  for (const [hole, { between, for: lines }] of Object.entries(arrangement.newHoles)) {
    between.forEach((name, index) => {
      if (index === 1 && (name === SKIN || name === UNDRAWN)) return;
      needs([...path, 'newHoles', hole, 'between', index], name, boat.compartments, 'compartment');
    });
    lines.forEach((line, index) => {
      needs([...path, 'newHoles', hole, 'for', index], line, boat.lines, 'line');
    });
  }
  checkValves(arrangement.operatingState ?? {}, [...path, 'operatingState'], things, needs, report);
}

/** "; did you mean X?" when one known id is near. */
function suggestion(wanted: string, known: readonly string[]): string {
  let best: string | null = null;
  let bestDistance = Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const candidate of known) {
    const distance = editDistance(wanted, candidate, bestDistance);
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best === null ? '' : `; did you mean ${best}?`;
}

/** Levenshtein distance, or `cap` when it is not less. */
function editDistance(a: string, b: string, cap: number): number {
  if (Math.abs(a.length - b.length) >= cap) return cap;
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const substitution = (previous[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(substitution, (previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
    }
    previous = row;
  }
  return Math.min(previous[b.length] ?? cap, cap);
}
