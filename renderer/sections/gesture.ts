import type { Vec2 } from '@core/base/vec';

/**
 * What the pointer is doing on the section board, as a value; a step gives the next value and what is to be done about it.
 * One press and release on a point is one edit, and Escape leaves the boat as it was.
 */
export type SectionGesture =
  | { readonly state: 'idle' }
  | { readonly state: 'pressed'; readonly on: SectionTarget; readonly from: Vec2 }
  | { readonly state: 'dragging'; readonly index: number; readonly from: Vec2 }
  | { readonly state: 'panning'; readonly last: Vec2 };

export type SectionTarget =
  | { readonly kind: 'point'; readonly station: string; readonly index: number }
  | { readonly kind: 'curve'; readonly station: string }
  /** Profile or plan: the station nearest along the boat. */
  | { readonly kind: 'along'; readonly station: string }
  | { readonly kind: 'ground' };

export type SectionInput =
  | { readonly type: 'down'; readonly at: Vec2; readonly target: SectionTarget; readonly pan: boolean }
  | { readonly type: 'move'; readonly at: Vec2 }
  | { readonly type: 'up' }
  | { readonly type: 'double'; readonly at: Vec2; readonly target: SectionTarget }
  | { readonly type: 'cancel' };

export type SectionEffect =
  | { readonly do: 'pickStation'; readonly station: string }
  | { readonly do: 'pickPoint'; readonly station: string; readonly index: number }
  | { readonly do: 'holdPoint'; readonly index: number; readonly by: Vec2 }
  | { readonly do: 'release' }
  | { readonly do: 'giveUp' }
  | { readonly do: 'addPoint'; readonly station: string; readonly at: Vec2 }
  | { readonly do: 'pan'; readonly by: Vec2 };

export interface SectionStep {
  readonly gesture: SectionGesture;
  readonly effects: readonly SectionEffect[];
}

export const AT_REST: SectionGesture = { state: 'idle' };
/** A press becomes a drag after this way, pixels. */
const SLOP_PX = 3;

export function sectionStep(gesture: SectionGesture, input: SectionInput): SectionStep {
  if (input.type === 'cancel')
    return { gesture: AT_REST, effects: gesture.state === 'dragging' ? [{ do: 'giveUp' }] : [] };
  if (input.type === 'double') {
    const { target, at } = input;
    return {
      gesture: AT_REST,
      effects: target.kind === 'curve' ? [{ do: 'addPoint', station: target.station, at }] : [],
    };
  }
  switch (gesture.state) {
    case 'idle':
      return input.type === 'down' ? pressed(input) : { gesture, effects: [] };
    case 'pressed': {
      if (input.type === 'up') return { gesture: AT_REST, effects: [] };
      if (input.type !== 'move') return { gesture, effects: [] };
      const by: Vec2 = [input.at[0] - gesture.from[0], input.at[1] - gesture.from[1]];
      if (Math.hypot(by[0], by[1]) < SLOP_PX) return { gesture, effects: [] };
      if (gesture.on.kind === 'point') {
        const { index } = gesture.on;
        return {
          gesture: { state: 'dragging', index, from: gesture.from },
          effects: [{ do: 'holdPoint', index, by }],
        };
      }
      return gesture.on.kind === 'ground'
        ? { gesture: { state: 'panning', last: input.at }, effects: [{ do: 'pan', by }] }
        : { gesture, effects: [] };
    }
    case 'dragging':
      if (input.type === 'move') {
        const by: Vec2 = [input.at[0] - gesture.from[0], input.at[1] - gesture.from[1]];
        return { gesture, effects: [{ do: 'holdPoint', index: gesture.index, by }] };
      }
      return input.type === 'up' ? { gesture: AT_REST, effects: [{ do: 'release' }] } : { gesture, effects: [] };
    case 'panning':
      if (input.type === 'move') {
        const by: Vec2 = [input.at[0] - gesture.last[0], input.at[1] - gesture.last[1]];
        return { gesture: { ...gesture, last: input.at }, effects: [{ do: 'pan', by }] };
      }
      return input.type === 'up' ? { gesture: AT_REST, effects: [] } : { gesture, effects: [] };
  }
}

function pressed({ at, target, pan }: Extract<SectionInput, { type: 'down' }>): SectionStep {
  if (pan) return { gesture: { state: 'panning', last: at }, effects: [] };
  const gesture: SectionGesture = { state: 'pressed', on: target, from: at };
  switch (target.kind) {
    case 'point':
      return { gesture, effects: [{ do: 'pickPoint', station: target.station, index: target.index }] };
    case 'curve':
    case 'along':
      return { gesture, effects: [{ do: 'pickStation', station: target.station }] };
    case 'ground':
      return { gesture, effects: [] };
  }
}
