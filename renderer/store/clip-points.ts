import type { Vec3 } from '@core/base/vec';
import type { BoatRecipe } from '@core/boat/edits';
import { quantised } from '@core/boat/quantise';
import type { Arrangement, Boat } from '@core/boat/schema/boat';
import { arrangementOf } from './select';
import type { Pulled } from './types';

/** A point that the run of a line is clipped to on its way. */
export interface ClipPoint {
  readonly line: string;
  readonly id: string;
  /** Its number among those of the line, from 1. */
  readonly number: number;
  readonly order: number;
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
      .map(([id, { at, order }], index) => ({ line, id, number: index + 1, order, at })),
  );
  known.set(clips, points);
  return points;
}

type PulledClip = Pick<Extract<Pulled, { kind: 'clip' }>, 'line' | 'id' | 'order' | 'at'>;

const toMicrometres = ([x, y, z]: Vec3): [number, number, number] => [quantised(x), quantised(y), quantised(z)];

/** The clip points of a line with one of them, known or new, at another place. */
export const clipsWith = (
  boat: Boat,
  arrangementId: string | null,
  { line, id, order, at }: PulledClip,
): Arrangement['clipPoints'][string] => {
  const own = arrangementOf(boat, arrangementId)?.clipPoints[line] ?? {};
  return { ...own, [id]: { ...own[id], order, at: toMicrometres(at) } };
};

/** Sets a clip point, or moves the one of that id. */
export const clipPointPut =
  (arrangementId: string | null, { line, id, order, at }: PulledClip): BoatRecipe =>
  (draft) => {
    const clips = draft.arrangements[arrangementId ?? '']?.clipPoints;
    if (!clips) return;
    const own = clips[line] ?? {};
    own[id] = { ...own[id], order, at: toMicrometres(at) };
    clips[line] = own;
  };

export const clipPointRemoved =
  (arrangementId: string | null, line: string, id: string): BoatRecipe =>
  (draft) => {
    const clips = draft.arrangements[arrangementId ?? '']?.clipPoints;
    const own = clips?.[line];
    if (!clips || !own) return;
    delete own[id];
    if (Object.keys(own).length === 0) delete clips[line];
  };
