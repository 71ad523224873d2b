import * as portable from '../../base/portable';
import { along, type Pose, type Vec3 } from '../../base/vec';
import type { Opening, Service } from '../../boat/schema/boat';
import type { HullSurface } from '../../shape/hull/types';
import type { Layout } from '../../shape/layout/types';
import { type FreeDepth, freeDepth } from '../../shape/space/free-depth';
import type { Solid } from '../../shape/space/solids';
import { type PushedFace, serviceFace } from '../../shape/space/things';
import { wallsLiftedFor } from './service-depth';

export interface ServicedRoom {
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  readonly openings: Readonly<Record<string, Opening>>;
  /** What may be in the way within a box, the part's own left out. */
  readonly solidsIn: (low: Vec3, high: Vec3) => readonly Solid[];
}

/** Room that one service task of a thing finds, with the openings that are lifted for it. Looked for twice as far as it needs. */
export function serviceRoom(
  service: Service,
  pose: Pose,
  room: ServicedRoom,
): { readonly face: PushedFace; readonly free: FreeDepth } {
  const face = serviceFace(service, pose);
  const cap = Math.max(2 * service.clearM, service.clearM + 0.1);
  const end = along(face.at, face.direction, cap);
  const radiusM = radiusOf(face);
  const bound = (pick: (a: number, b: number) => number, by: number): Vec3 =>
    [0, 1, 2].map((k) => pick(face.at[k] ?? 0, end[k] ?? 0) + by) as unknown as Vec3;
  const solids = room
    .solidsIn(bound(Math.min, -radiusM), bound(Math.max, radiusM))
    .filter(({ layer }) => layer !== 'serviceKeepOut' && layer !== 'run');
  const { layout, hull } = room;
  const withoutWalls = wallsLiftedFor(layout, room.openings, face);
  return { face, free: freeDepth(face, cap, { layout, hull, solids, withoutWalls }) };
}

/** Whether an opening is lifted for a service task. */
export const liftsFor = (service: Service, pose: Pose, layout: Layout, opening: Opening): boolean =>
  wallsLiftedFor(layout, { opening }, serviceFace(service, pose)).size > 0;

const radiusOf = ({ round, sizeM }: PushedFace): number => (round ? sizeM[0] / 2 : portable.hypot(...sizeM) / 2);
