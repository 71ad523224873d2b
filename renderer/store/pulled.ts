import { distance, type Vec3 } from '@core/base/vec';
import { type BoatRecipe, freeId } from '@core/boat/edits';
import { runPinned, runUnpinned } from '@core/boat/pins';
import { quantised } from '@core/boat/quantise';
import type { Boat } from '@core/boat/schema/boat';
import type { HoleReport, RunReport } from '@core/engine/report';
import { pathOf } from '@core/output/views/curves';
import { FRAMES, project } from '@core/output/views/drawing';
import { pinOf } from '@core/runs/pinned/pin';
import { type OnRun, orderAt, placeAlong, placeUnder } from '../tools/along-run';
import { useApp } from './app';
import { clipPointPut, clipPointRemoved, clipPointsOf } from './clip-points';
import { useCursor } from './cursor';
import { layoutOf } from './derived';
import { type JudgedEdit, judgedEdit } from './judged-edit';
import { useRunPlace } from './run-place';
import { arrangementOf, isPinned, lineInHand, markOf } from './select';
import type { Pulled, Selection } from './types';

/** What is done to the run of a line by hand, as edits that are looked at before they are made. */

/** Why the run of a pinned line is not led by hand. */
export const IS_PINNED = 'It is pinned as built: unpin it first';

const lineMark = (line: string): string => markOf(line, useApp.getState().boat?.lines[line] ?? null);

/** The edit that a pull comes to when it is let go. */
export function pulledEdit(pulled: Pulled): Omit<JudgedEdit, 'done'> {
  const { arrangementId } = useApp.getState();
  const { line } = pulled;
  const mark = lineMark(line);
  if (pulled.kind === 'crossing')
    return {
      label: `Slide a hole of ${mark}`,
      line,
      recipe: crossingPut(pulled),
      refusal: `Hole of ${mark} not moved`,
    };
  return {
    label: pulled.isNew ? `Clip point on ${mark}` : `Move a clip point of ${mark}`,
    line,
    recipe: clipPointPut(arrangementId, pulled),
    refusal: pulled.isNew ? `Clip point on ${mark} not set` : `Clip point of ${mark} not moved`,
  };
}

const runOf = (lineId: string): RunReport | null =>
  useApp.getState().report?.runs.find((run) => run.lineId === lineId) ?? null;

/** A run that is there and not pinned follows a clip point. */
export const canPull = (boat: Boat, arrangementId: string | null, line: string): boolean =>
  runOf(line)?.status === 'routed' && !isPinned(boat, arrangementId, line);

/** The hole of the arrangement that a crossing uses; null where the router chose the place, or a hole is there already. */
export function decidedHole(boat: Boat, arrangementId: string | null, hole: HoleReport): string | null {
  const planned = layoutOf(boat, arrangementId).panels[hole.panelId]?.holes.filter((one) => one.planned) ?? [];
  const here = hole.newHoleId ?? planned.find((one) => distance(one.at, hole.at) <= one.diameterM / 2)?.id;
  return here !== undefined && arrangementOf(boat, arrangementId)?.newHoles[here] ? here : null;
}

/** Whether a crossing can be slid: it is still to be drilled. */
export const isToDrill = (boat: Boat, arrangementId: string | null, hole: HoleReport): boolean =>
  !hole.existing || decidedHole(boat, arrangementId, hole) !== null;

type PulledCrossing = Pick<Extract<Pulled, { kind: 'crossing' }>, 'line' | 'index' | 'panelId' | 'diameterM' | 'at'>;

/** Decides on the hole of a crossing: the one that is decided on already moves, else it becomes one. */
function crossingPut({ line, index, panelId, diameterM, at }: PulledCrossing): BoatRecipe {
  const { boat, arrangementId } = useApp.getState();
  const panel = boat ? layoutOf(boat, arrangementId).panels[panelId] : undefined;
  const hole = runOf(line)?.holes[index];
  const decided = boat && hole ? decidedHole(boat, arrangementId, hole) : null;
  return (draft) => {
    const holes = draft.arrangements[arrangementId ?? '']?.newHoles;
    if (!holes || !panel) return;
    const place: [number, number, number] = [quantised(at[0]), quantised(at[1]), quantised(at[2])];
    const own = decided === null ? undefined : holes[decided];
    if (own) {
      own.at = place;
      if (!own.for.includes(line)) own.for.push(line);
      return;
    }
    holes[freeId(holes, `hole-${line}`)] = { between: [...panel.between], at: place, diameterM, for: [line] };
  };
}

/** Leaves a crossing to the router again. */
export function crossingFreed(line: string, index: number): boolean {
  const { boat, arrangementId, edit } = useApp.getState();
  const hole = runOf(line)?.holes[index];
  const decided = boat && hole ? decidedHole(boat, arrangementId, hole) : null;
  if (decided === null) return false;
  return edit(`Free a hole of ${lineMark(line)}`, (draft) => {
    const holes = draft.arrangements[arrangementId ?? '']?.newHoles;
    const own = holes?.[decided];
    if (!holes || !own) return;
    own.for = own.for.filter((id) => id !== line);
    if (own.for.length === 0) delete holes[decided];
  });
}

/** A clip point that is to be set where the run is now. */
export function newClip(
  boat: Boat,
  arrangementId: string | null,
  line: string,
  path: readonly Vec3[],
  { at, alongM }: OnRun,
): Extract<Pulled, { kind: 'clip' }> {
  const own = clipPointsOf(boat, arrangementId).filter((point) => point.line === line);
  const id = freeId(arrangementOf(boat, arrangementId)?.clipPoints[line] ?? {}, 'clip');
  return { kind: 'clip', line, id, order: orderAt(path, own, alongM), isNew: true, start: at, at };
}

/** A pointer farther from the run than this does not mean it, metres. */
const NEAR_RUN_M = 0.15;

/**
 * Sets a clip point on the run of the line that one works on: at the place marked on its profile, else under the pointer, else
 * in the middle; to be moved from there. Says why where there is nothing to set one on.
 */
export function clipPointSet(): void {
  const { boat, arrangementId, selection, notify, select } = useApp.getState();
  const line = lineInHand(selection);
  const run = line === null ? null : runOf(line);
  if (!boat || line === null) {
    notify('Select a run first');
    return;
  }
  if (run?.status !== 'routed' || !canPull(boat, arrangementId, line)) {
    notify(run?.status === 'routed' ? IS_PINNED : 'This line has no run to set it on');
    return;
  }
  const path = pathOf(run.prims);
  const place = markedPlace(line, path) ?? underPointer(path) ?? placeAlong(path, (run.lengthM ?? 0) / 2);
  if (!place) return;
  const clip = newClip(boat, arrangementId, line, path, place);
  judgedEdit({
    ...pulledEdit(clip),
    done: (judged) => {
      if (judged === 'made') select({ kind: 'clipPoint', id: clip.id, line });
    },
  });
}

function markedPlace(line: string, path: readonly Vec3[]): OnRun | null {
  const { marked } = useRunPlace.getState();
  return marked?.line === line ? placeAlong(path, marked.alongM) : null;
}

/** The place on the run nearest to the pointer, by the two coordinates that its view knows. */
function underPointer(path: readonly Vec3[]): OnRun | null {
  const { at } = useCursor.getState();
  if (!at) return null;
  const frame = FRAMES[at[1] === null ? 'profile' : at[2] === null ? 'plan' : 'section'];
  const paper = project(frame, [at[0] ?? 0, at[1] ?? 0, at[2] ?? 0]);
  const place = placeUnder(path, frame, paper);
  if (!place) return null;
  const [u, v] = project(frame, place.at);
  return Math.hypot(u - paper[0], v - paper[1]) <= NEAR_RUN_M ? place : null;
}

/** Keeps the run of the line that one works on as it lies, or gives it back to the router. */
export function pinToggled(): void {
  const { boat, arrangementId, selection, edit, notify } = useApp.getState();
  const line = lineInHand(selection);
  if (!boat || line === null || arrangementId === null) {
    notify('Select a run first');
    return;
  }
  const mark = lineMark(line);
  if (isPinned(boat, arrangementId, line)) {
    edit(`Unpin ${mark}`, runUnpinned(arrangementId, line));
    return;
  }
  const run = runOf(line);
  if (run?.status !== 'routed') notify('This line has no run to pin');
  else edit(`Pin ${mark} as built`, runPinned(arrangementId, line, pinOf(run.prims)));
}

/** The place that the keys have given a point already, while it is still looked at. */
let nudging: { readonly of: string; readonly at: Vec3 } | null = null;

/** Moves a clip point, or slides a crossing, by a step of the keys from where it is now; steps in a row become one. */
export function nudgePulled(selection: Selection | null, to: (at: Vec3) => Vec3): boolean {
  const { boat, arrangementId } = useApp.getState();
  const held = boat && selection ? heldOf(boat, arrangementId, selection) : null;
  if (!held) return false;
  const of = `${held.kind} ${held.line} ${held.kind === 'clip' ? held.id : held.index}`;
  const at = to(nudging?.of === of ? nudging.at : held.at);
  nudging = { of, at };
  const moved = { ...held, at };
  judgedEdit({
    ...pulledEdit(moved),
    merge: `nudge ${of}`,
    done: () => {
      if (nudging?.of === of && nudging.at === at) nudging = null;
    },
  });
  return true;
}

/** Puts a clip point or a crossing to a place that was typed. */
export function putPulled(selection: Selection, at: Vec3): void {
  const { boat, arrangementId } = useApp.getState();
  const held = boat ? heldOf(boat, arrangementId, selection) : null;
  if (held) judgedEdit(pulledEdit({ ...held, at }));
}

/** What a selection would hold, at its place now. */
export function heldOf(boat: Boat, arrangementId: string | null, selection: Selection): Pulled | null {
  if (selection.kind === 'clipPoint') {
    const { line, id } = selection;
    const point = clipPointsOf(boat, arrangementId).find((one) => one.id === id && one.line === line);
    return point ? { kind: 'clip', line, id, order: point.order, isNew: false, start: point.at, at: point.at } : null;
  }
  if (selection.kind !== 'crossing') return null;
  const { line } = selection;
  const index = Number(selection.id);
  const hole = runOf(line)?.holes[index];
  if (!hole || !canPull(boat, arrangementId, line) || !isToDrill(boat, arrangementId, hole)) return null;
  const { panelId, diameterM, at } = hole;
  return { kind: 'crossing', line, index, panelId, diameterM, start: at, at, stoppedBy: null };
}

/** Takes away the clip point that is selected, or leaves the crossing to the router. False for other selections. */
export function pulledDeleted(selection: Selection): boolean {
  const { arrangementId, edit, select, notify } = useApp.getState();
  if (selection.kind === 'clipPoint') {
    const { line, id } = selection;
    edit(`Remove a clip point of ${lineMark(line)}`, clipPointRemoved(arrangementId, line, id));
    select({ kind: 'line', id: line });
    return true;
  }
  if (selection.kind !== 'crossing') return false;
  if (!crossingFreed(selection.line, Number(selection.id)))
    notify('This place was found, not set: there is nothing to free');
  return true;
}
