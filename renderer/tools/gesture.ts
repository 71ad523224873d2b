import type { Vec2, Vec3 } from '@core/base/vec';
import type { FaceKey } from '@core/boat/interior/faces';
import type { FieldView, Selection } from '../store/types';

/**
 * What the pointer is doing on the board, as a value; a step gives the next value and what is to be done about it.
 * Nothing here knows the stores: the board carries the effects out, so that one gesture is one undo step by construction.
 */
export type Gesture =
  | { readonly state: 'idle' }
  | {
      readonly state: 'pressed';
      readonly on: Target;
      readonly view: FieldView;
      readonly from: Vec2;
      readonly pan: boolean;
      readonly adding: boolean;
    }
  | { readonly state: 'boxing'; readonly view: FieldView; readonly from: Vec2 }
  | { readonly state: 'joining'; readonly from: Vec2 }
  | { readonly state: 'dragging'; readonly thing: string; readonly view: FieldView; readonly from: Vec2 }
  | { readonly state: 'pulling'; readonly what: OfRun; readonly view: FieldView; readonly from: Vec2 }
  | { readonly state: 'shaping'; readonly what: Shaping; readonly view: FieldView; readonly from: Vec2 }
  | { readonly state: 'panning'; readonly view: FieldView; readonly last: Vec2 }
  | { readonly state: 'cutting'; readonly view: FieldView };

/** What of a run a drag pulls: a clip point, a crossing, or the run itself where it was pressed. */
export type OfRun = Extract<Selection, { readonly kind: 'clipPoint' | 'crossing' }> | RunPressed;
interface RunPressed {
  readonly kind: 'line';
  readonly id: string;
}

/** What of the interior a drag shapes: a face or corner of a compartment, or what hangs on a face and slides along it. */
export type Shaping =
  | { readonly kind: 'face'; readonly compartment: string; readonly key: FaceKey }
  | { readonly kind: 'corner'; readonly compartment: string; readonly corner: number }
  | { readonly kind: 'opening' | 'surface' | 'standingPlace'; readonly id: string }
  | { readonly kind: 'hole'; readonly panel: string; readonly hole: string };

/** A port of a thing; with `line` and `end` the end of a line that is on it. */
export interface PortPressed {
  readonly thing: string;
  readonly port: string;
  readonly line?: { readonly id: string; readonly end: 'from' | 'to' };
}

export type Target =
  | {
      readonly kind: 'selectable';
      readonly selection: Selection;
      readonly movable: boolean;
      /** It is picked together with others: a press keeps them, so that a drag takes all along. */
      readonly isAmong?: boolean;
    }
  /** A port, or an end of the picked line: a drag leads it to another port. */
  | { readonly kind: 'port'; readonly port: PortPressed; readonly under: Selection | null }
  | { readonly kind: 'cutMark' }
  /** A drag shapes it, a click takes it in hand; `under` is what the click gives when it is in hand already. */
  | { readonly kind: 'grip'; readonly what: Shaping; readonly under: Selection | null }
  | { readonly kind: 'ground'; readonly under: Selection | null };

export type Input =
  | {
      readonly type: 'down';
      readonly at: Vec2;
      readonly view: FieldView;
      readonly target: Target;
      readonly pan: boolean;
      /** Shift or Ctrl is down: what is pressed joins what is picked, a drag on the ground marks out a box. */
      readonly adding?: boolean;
    }
  | { readonly type: 'move'; readonly at: Vec2 }
  | { readonly type: 'up'; readonly at: Vec2 }
  | { readonly type: 'cancel' };

export type Effect =
  | { readonly do: 'select'; readonly selection: Selection | null }
  | { readonly do: 'toggle'; readonly selection: Selection }
  /** Of several that are picked, the one that was pressed comes to the front. */
  | { readonly do: 'front'; readonly selection: Selection }
  | { readonly do: 'box'; readonly view: FieldView; readonly from: Vec2; readonly to: Vec2 }
  | { readonly do: 'endBox'; readonly how: 'commit' | 'cancel' }
  | { readonly do: 'joinFrom'; readonly port: PortPressed }
  | { readonly do: 'joinTo'; readonly at: Vec2 }
  | { readonly do: 'endJoin'; readonly at: Vec2 | null }
  | { readonly do: 'activate'; readonly view: FieldView }
  | { readonly do: 'startDrag'; readonly thing: string }
  | { readonly do: 'moveTo'; readonly thing: string; readonly view: FieldView; readonly by: Vec2 }
  | { readonly do: 'endDrag'; readonly how: 'commit' | 'cancel' }
  | { readonly do: 'startPull'; readonly what: OfRun; readonly view: FieldView; readonly from: Vec2 }
  | { readonly do: 'pullTo'; readonly view: FieldView; readonly by: Vec2 }
  | { readonly do: 'shape'; readonly what: Shaping; readonly view: FieldView; readonly from: Vec2; readonly at: Vec2 }
  | { readonly do: 'endShape'; readonly how: 'commit' | 'cancel' }
  | { readonly do: 'grip'; readonly what: Shaping; readonly under: Selection | null }
  | { readonly do: 'pan'; readonly view: FieldView; readonly by: Vec2 }
  | { readonly do: 'cutAt'; readonly at: Vec2; readonly view: FieldView };

export interface Step {
  readonly gesture: Gesture;
  readonly effects: readonly Effect[];
}

export const IDLE: Gesture = { state: 'idle' };
/** A press becomes a drag after this way, pixels. */
export const SLOP_PX = 3;

export function step(gesture: Gesture, input: Input): Step {
  if (input.type === 'cancel') return { gesture: IDLE, effects: givenUp(gesture) };
  switch (gesture.state) {
    case 'idle':
      return input.type === 'down' ? pressed(input) : { gesture, effects: [] };
    case 'pressed':
      return fromPressed(gesture, input);
    case 'dragging':
      if (input.type === 'move' || input.type === 'up') {
        const by: Vec2 = [input.at[0] - gesture.from[0], input.at[1] - gesture.from[1]];
        const moveTo: Effect = { do: 'moveTo', thing: gesture.thing, view: gesture.view, by };
        return input.type === 'move'
          ? { gesture, effects: [moveTo] }
          : { gesture: IDLE, effects: [moveTo, { do: 'endDrag', how: 'commit' }] };
      }
      return { gesture, effects: [] };
    case 'pulling':
      if (input.type === 'move' || input.type === 'up') {
        const by: Vec2 = [input.at[0] - gesture.from[0], input.at[1] - gesture.from[1]];
        const pullTo: Effect = { do: 'pullTo', view: gesture.view, by };
        return input.type === 'move'
          ? { gesture, effects: [pullTo] }
          : { gesture: IDLE, effects: [pullTo, { do: 'endDrag', how: 'commit' }] };
      }
      return { gesture, effects: [] };
    case 'shaping':
      if (input.type === 'move' || input.type === 'up') {
        const { what, view, from } = gesture;
        const shape: Effect = { do: 'shape', what, view, from, at: input.at };
        return input.type === 'move'
          ? { gesture, effects: [shape] }
          : { gesture: IDLE, effects: [shape, { do: 'endShape', how: 'commit' }] };
      }
      return { gesture, effects: [] };
    case 'boxing':
      if (input.type === 'move' || input.type === 'up') {
        const box: Effect = { do: 'box', view: gesture.view, from: gesture.from, to: input.at };
        return input.type === 'move'
          ? { gesture, effects: [box] }
          : { gesture: IDLE, effects: [box, { do: 'endBox', how: 'commit' }] };
      }
      return { gesture, effects: [] };
    case 'joining':
      if (input.type === 'move') return { gesture, effects: [{ do: 'joinTo', at: input.at }] };
      return input.type === 'up'
        ? { gesture: IDLE, effects: [{ do: 'endJoin', at: input.at }] }
        : { gesture, effects: [] };
    case 'panning':
      if (input.type === 'move') {
        const by: Vec2 = [input.at[0] - gesture.last[0], input.at[1] - gesture.last[1]];
        return { gesture: { ...gesture, last: input.at }, effects: [{ do: 'pan', view: gesture.view, by }] };
      }
      return input.type === 'up' ? { gesture: IDLE, effects: [] } : { gesture, effects: [] };
    case 'cutting':
      if (input.type === 'move') return { gesture, effects: [{ do: 'cutAt', at: input.at, view: gesture.view }] };
      return input.type === 'up' ? { gesture: IDLE, effects: [] } : { gesture, effects: [] };
  }
}

function givenUp({ state }: Gesture): readonly Effect[] {
  if (state === 'dragging' || state === 'pulling') return [{ do: 'endDrag', how: 'cancel' }];
  if (state === 'boxing') return [{ do: 'endBox', how: 'cancel' }];
  if (state === 'joining') return [{ do: 'endJoin', at: null }];
  return state === 'shaping' ? [{ do: 'endShape', how: 'cancel' }] : [];
}

function pressed(input: Extract<Input, { type: 'down' }>): Step {
  const { target, view, at } = input;
  const activate: Effect = { do: 'activate', view };
  if (!input.pan && target.kind === 'cutMark') return { gesture: { state: 'cutting', view }, effects: [] };
  const adding = input.adding ?? false;
  const gesture: Gesture = { state: 'pressed', on: target, view, from: at, pan: input.pan, adding };
  if (!input.pan && target.kind === 'selectable') {
    const { selection } = target;
    // What joins the others does so on release: the press may begin a box.
    if (adding) return { gesture, effects: [activate] };
    return { gesture, effects: [activate, { do: target.isAmong ? 'front' : 'select', selection }] };
  }
  return { gesture, effects: [activate] };
}

function fromPressed(gesture: Extract<Gesture, { state: 'pressed' }>, input: Input): Step {
  if (input.type === 'up') {
    return { gesture: IDLE, effects: gesture.pan ? [] : clicked(gesture.on, gesture.adding) };
  }
  if (input.type !== 'move') return { gesture, effects: [] };
  const by: Vec2 = [input.at[0] - gesture.from[0], input.at[1] - gesture.from[1]];
  if (Math.hypot(by[0], by[1]) < SLOP_PX) return { gesture, effects: [] };
  const { on, view, from, adding } = gesture;
  if (!gesture.pan && adding && on.kind !== 'port')
    return { gesture: { state: 'boxing', view, from }, effects: [{ do: 'box', view, from, to: input.at }] };
  if (!gesture.pan && on.kind === 'port')
    return {
      gesture: { state: 'joining', from },
      effects: [
        { do: 'joinFrom', port: on.port },
        { do: 'joinTo', at: input.at },
      ],
    };
  const shapes = gesture.pan ? null : shapingOf(on);
  if (shapes) {
    const shape: Effect = { do: 'shape', what: shapes, view, from, at: input.at };
    return { gesture: { state: 'shaping', what: shapes, view, from }, effects: [shape] };
  }
  if (!gesture.pan && on.kind === 'selectable') {
    const pulls = on.movable ? pullOf(on.selection) : null;
    if (pulls)
      return {
        gesture: { state: 'pulling', what: pulls, view, from },
        effects: [
          { do: 'startPull', what: pulls, view, from },
          { do: 'pullTo', view, by },
        ],
      };
    if (!on.movable || on.selection.kind !== 'thing') return { gesture, effects: [] };
    const thing = on.selection.id;
    return {
      gesture: { state: 'dragging', thing, view, from },
      effects: [
        { do: 'startDrag', thing },
        { do: 'moveTo', thing, view, by },
      ],
    };
  }
  return { gesture: { state: 'panning', view, last: input.at }, effects: [{ do: 'pan', view, by }] };
}

function clicked(on: Target, adding: boolean): Effect[] {
  if (on.kind === 'ground' || on.kind === 'port') {
    if (!adding) return on.kind === 'port' && on.under === null ? [] : [{ do: 'select', selection: on.under }];
    return on.under ? [{ do: 'toggle', selection: on.under }] : [];
  }
  if (on.kind === 'selectable') {
    if (adding) return [{ do: 'toggle', selection: on.selection }];
    return on.isAmong ? [{ do: 'select', selection: on.selection }] : [];
  }
  return on.kind === 'grip' ? [{ do: 'grip', what: on.what, under: on.under }] : [];
}

function pullOf(selection: Selection): OfRun | null {
  if (selection.kind === 'line') return { kind: 'line', id: selection.id };
  return selection.kind === 'clipPoint' || selection.kind === 'crossing' ? selection : null;
}

/** What a drag of the target shapes; null for what it moves otherwise or not at all. */
function shapingOf(on: Target): Shaping | null {
  if (on.kind === 'grip') return on.what;
  if (on.kind !== 'selectable' || !on.movable) return null;
  const { kind, id } = on.selection;
  return kind === 'opening' || kind === 'surface' || kind === 'standingPlace' ? { kind, id } : null;
}

/** Step of the arrow keys along the axes of a view: 10 mm, with shift 1 mm. Null for other keys. */
export function nudgeOf(key: string, fine: boolean, right: Vec3, up: Vec3): Vec3 | null {
  const size = fine ? 0.001 : 0.01;
  const along = (v: Vec3, k: number): Vec3 => [v[0] * k + 0, v[1] * k + 0, v[2] * k + 0];
  switch (key) {
    case 'ArrowRight':
      return along(right, size);
    case 'ArrowLeft':
      return along(right, -size);
    case 'ArrowUp':
      return along(up, size);
    case 'ArrowDown':
      return along(up, -size);
    default:
      return null;
  }
}
