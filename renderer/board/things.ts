import type { Pose } from '@core/base/vec';
import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import type { Boat, Thing } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { project, type ViewFrame } from '@core/output/views/drawing';
import { boundsInBoat } from '@core/output/views/envelope';
import { type RunPath, runLines, runLinesInSlab, runPath, runStyle } from '@core/output/views/runs';
import { type ThingLines, thingLines } from '@core/output/views/things';
import { markOf, poseOf, thingOf } from '../store/select';
import type { Box } from '../tools/faces';
import type { DrawnRun } from './paint/runs';
import { PerView } from './per-view';

export interface Placed {
  readonly id: string;
  readonly thing: Thing;
  readonly part: boolean;
  readonly pose: Pose;
  readonly tag: string;
}

/** Everything that stands somewhere: fixtures, and parts that the arrangement places. The moving one at its own pose. */
export function placedThings(
  boat: Boat,
  arrangementId: string | null,
  moving: { id: string; pose: Pose } | null,
): Placed[] {
  const out: Placed[] = [];
  const take = (id: string, thing: Thing, part: boolean) => {
    const pose = moving?.id === id ? moving.pose : poseOf(boat, arrangementId, id);
    if (pose) out.push({ id, thing, part, pose, tag: markOf(id, thing) });
  };
  for (const [id, fixture] of Object.entries(boat.fixtures)) take(id, fixture, false);
  for (const [id, part] of Object.entries(boat.parts)) take(id, part, true);
  return out;
}

const linesOf = new PerView<Thing, { pose: Pose; lines: ThingLines }>();
/** Line work of a thing, kept as long as its record and its pose are the same ones. */
export function linesOfThing({ id, thing, pose, part }: Placed, frame: ViewFrame): ThingLines {
  const known = linesOf.get(thing, frame.name);
  if (known && known.pose === pose) return known.lines;
  const lines = thingLines(id, thing, pose, frame, part ? 'part' : 'fixture');
  return linesOf.set(thing, frame.name, { pose, lines }).lines;
}

const boxes = new WeakMap<Thing, { pose: Pose; box: Box }>();
export function boxOf({ thing, pose }: Pick<Placed, 'thing' | 'pose'>): Box {
  const known = boxes.get(thing);
  if (known && known.pose === pose) return known.box;
  const box = boundsInBoat(thing.shape, pose);
  boxes.set(thing, { pose, box });
  return box;
}

const paths = new WeakMap<RunReport, { ends: readonly unknown[]; path: RunPath }>();
/** A run in space. Blocked ones depend on where their ends stand, so the poses are part of the key. */
export function pathOfRun(
  boat: Boat,
  arrangementId: string | null,
  run: RunReport,
  moving: ReadonlyMap<string, Pose> | null,
): RunPath | null {
  const line = boat.lines[run.lineId];
  if (!line) return null;
  const poseNow = (id: string) => moving?.get(id) ?? poseOf(boat, arrangementId, id);
  const ends = [line, poseNow(line.from.thing), poseNow(line.to.thing)];
  const known = paths.get(run);
  if (known && (run.status === 'routed' ? known.ends[0] === line : known.ends.every((e, i) => e === ends[i])))
    return known.path;
  const end = (id: string) => {
    const thing = thingOf(boat, id);
    const pose = poseNow(id);
    return thing && pose ? { thing, pose } : null;
  };
  const path = runPath(run, line, lineKindOf(boat.lineKinds, line.kind), end(line.from.thing), end(line.to.thing));
  paths.set(run, { ends, path });
  return path;
}

const drawnRuns = new PerView<RunPath, DrawnRun>();
export function drawnRun(
  boat: Boat,
  path: RunPath,
  frame: ViewFrame,
  slab: { low: number; high: number; at: number } | null,
): DrawnRun | null {
  const line = boat.lines[path.id];
  if (!line) return null;
  const key = slab ? `${frame.name} ${slab.low} ${slab.high}` : frame.name;
  const known = drawnRuns.get(path, key);
  if (known) return known;
  const primitives = slab ? runLinesInSlab(path, frame, slab.low, slab.high, slab.at) : runLines(path, frame);
  const pieces = primitives.flatMap((p) => (p.kind === 'stroke' && p.role !== 'runCut' ? [p.points] : []));
  const stopInSlab = path.stopsAt && (!slab || pieces.length > 0);
  const drawn: DrawnRun = {
    id: path.id,
    style: runStyle(line, lineKindOf(boat.lineKinds, line.kind)),
    routed: path.routed,
    pieces,
    stopsAt: stopInSlab && path.stopsAt ? project(frame, path.stopsAt) : null,
  };
  return drawnRuns.set(path, key, drawn);
}
