import type { Vec2 } from '@core/base/vec';
import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import { freeId, lineAdded, lineEndSet } from '@core/boat/edits';
import { type Joined, joinOf, type PortAt } from '@core/boat/joins';
import type { Boat, Line } from '@core/boat/schema/boat';
import { joinRefusalText, portText } from '@core/output/text/join-text';
import { create } from 'zustand';
import { useApp } from './app';
import { markOf, thingOf } from './select';

/** A line that is being led from a port to another: a new one, or the end of one that is there. */
export interface JoiningState {
  readonly from: PortAt | null;
  /** The line of which an end is led elsewhere; `from` is then its other end. */
  readonly moving: { readonly line: string; readonly end: 'from' | 'to' } | null;
  /** The port that it would go to. */
  readonly over: PortAt | null;
  /** Another kind than the proposed one. */
  readonly kind: string | null;
}

const NOTHING: JoiningState = { from: null, moving: null, over: null, kind: null };

export const useJoining = create<JoiningState>()(() => NOTHING);

/** Where the pointer leads it, pixels of the board: apart, since it changes with every move. */
export const useJoinPointer = create<{ readonly at: Vec2 | null }>()(() => ({ at: null }));

export const samePort = (a: PortAt | null, b: PortAt | null): boolean =>
  a === b || (a !== null && b !== null && a.thing === b.thing && a.port === b.port);

export const beginJoin = (from: PortAt): void => useJoining.setState({ ...NOTHING, from });

/** Takes hold of an end of a line: it stays on the port of its other end. */
export function beginMoveEnd(line: string, end: 'from' | 'to'): void {
  const own = useApp.getState().boat?.lines[line];
  if (own) useJoining.setState({ ...NOTHING, from: end === 'from' ? own.to : own.from, moving: { line, end } });
}

export function joinOver(over: PortAt | null): void {
  if (!samePort(useJoining.getState().over, over)) useJoining.setState({ over });
}

/** False when nothing was under way. */
export function dropJoin(): boolean {
  const { from } = useJoining.getState();
  useJoining.setState(NOTHING);
  return from !== null;
}

/** What the join under way would be; null while one of its ends is open. */
export function judgedJoin(
  boat: Boat,
  arrangementId: string | null,
  { from, over, moving }: JoiningState,
): Joined | null {
  return from && over ? joinOf(boat, arrangementId, from, over, moving?.line ?? null) : null;
}

/** Makes the join, and picks its line; says why it cannot be made. False then, and the first port stays chosen. */
export function finishJoin(): boolean {
  const { boat, arrangementId, edit, select, notify, showProblem } = useApp.getState();
  const state = useJoining.getState();
  const { from, over, moving, kind } = state;
  const joined = boat ? judgedJoin(boat, arrangementId, state) : null;
  if (!boat || !joined || !from || !over) return false;
  if (!joined.ok) {
    useJoining.setState({ ...NOTHING, from: moving ? null : from });
    showProblem({
      title: `Not joined: ${portText(boat, from)} and ${portText(boat, over)}`,
      lines: [joinRefusalText(boat, joined.refusal)],
    });
    return false;
  }
  useJoining.setState(NOTHING);
  if (moving) {
    const mark = markOf(moving.line, boat.lines[moving.line] ?? null);
    if (!edit(`Lead ${mark} to ${portText(boat, over)}`, lineEndSet(moving.line, moving.end, over))) return false;
    select({ kind: 'line', id: moving.line });
    notify(`${mark} leads to ${portText(boat, over)}. Undo: Ctrl Z`);
    return true;
  }
  const { join } = joined;
  const id = freeId(boat.lines, 'line');
  const [a, b] = [join.from, join.to].map(({ thing }) => markOf(thing, thingOf(boat, thing)));
  const name = `${a} to ${b}`;
  const line: Line = {
    name,
    kind: kind ?? join.kind,
    medium: join.medium,
    from: { ...join.from },
    to: { ...join.to },
    ends: {},
    existing: false,
  };
  if (!edit(`Join ${name}`, lineAdded(id, line))) return false;
  select({ kind: 'line', id });
  notify(`Joined ${name} by ${lineKindOf(boat.lineKinds, line.kind)?.name ?? line.kind}. Undo: Ctrl Z`);
  return true;
}
