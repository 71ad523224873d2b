import type { Vec3 } from '@core/base/vec';
import type { BoatRecipe } from '@core/boat/edits';
import { quantised } from '@core/boat/quantise';
import type { Boat } from '@core/boat/schema/boat';
import { create } from 'zustand';
import { useApp } from './app';
import { arrangementOf, markOf } from './select';

/** A point that the run of a line is clipped to on its way. */
export interface ClipPoint {
  readonly line: string;
  readonly id: string;
  /** Its number among those of the line, from 1. */
  readonly number: number;
  readonly at: Vec3;
}

const known = new WeakMap<object, readonly ClipPoint[]>();

/** All clip points of an arrangement, those of a line in their order. */
export function clipPointsOf(boat: Boat, arrangementId: string | null): readonly ClipPoint[] {
  const clips = arrangementOf(boat, arrangementId)?.clipPoints;
  if (!clips) return [];
  const before = known.get(clips);
  if (before) return before;
  const points = Object.entries(clips).flatMap(([line, own]) =>
    Object.entries(own)
      .sort(([, a], [, b]) => a.order - b.order)
      .map(([id, { at }], index) => ({ line, id, number: index + 1, at })),
  );
  known.set(clips, points);
  return points;
}

export const clipPointMoved =
  (arrangementId: string | null, line: string, id: string, at: Vec3): BoatRecipe =>
  (draft) => {
    const point = draft.arrangements[arrangementId ?? '']?.clipPoints[line]?.[id];
    if (point) point.at = [quantised(at[0]), quantised(at[1]), quantised(at[2])];
  };

/** Moves a clip point as one edit; with `merge` steps in a row become one. */
export function moveClipPoint({ line, id }: Pick<ClipPoint, 'line' | 'id'>, at: Vec3, merge?: string): void {
  const { boat, arrangementId, edit } = useApp.getState();
  const mark = markOf(line, boat?.lines[line] ?? null);
  edit(`Move a clip point of ${mark}`, clipPointMoved(arrangementId, line, id, at), merge);
}

/** The clip point that the pointer holds, at its place now. Its run follows on release. */
export interface HeldClip {
  readonly held: { readonly line: string; readonly id: string; readonly at: Vec3 } | null;
}
export const useHeldClip = create<HeldClip>()(() => ({ held: null }));
