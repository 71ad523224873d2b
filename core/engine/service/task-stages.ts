import type { Handle } from '../../assess/access/handle-swing';
import { inOrder } from '../../base/order';
import { along, cross, dot, type Pose, type Vec3 } from '../../base/vec';
import { needsOf, type TaskNeeds } from '../../boat/catalogue/task-defaults';
import type { Service } from '../../boat/schema/boat';
import { sameValue } from '../../boat/schema-walk';
import type { Layout } from '../../shape/layout/types';
import type { Solid } from '../../shape/space/solids';
import { handPoints, leastAlong, type PushedFace, serviceFace } from '../../shape/space/things';
import { compartmentOf, layout } from '../shape-stages';
import { solidsOf } from '../solid-stages';
import { compartmentData, isPart, openings, pose, standingPlaces, thing, thingIds } from '../source';
import { type ComputedStage, sameItems } from '../store';
import { type NoWay, type WayToTask, waysToTask } from './ways-to-task';

/** One service task where it is done aboard. */
export interface PlacedTask {
  /** thing/service */
  readonly key: string;
  readonly thing: string;
  readonly serviceId: string;
  readonly isPart: boolean;
  readonly service: Service;
  readonly needs: TaskNeeds;
  /** Where it is worked at: `direction` leads out of the thing there. */
  readonly face: PushedFace;
  /** Places of the hands, boat frame: none, one or two. */
  readonly hands: readonly Vec3[];
  /** What is drawn out, as it sits; null where nothing is. */
  readonly drawn: Solid | null;
  readonly compartment: string | null;
  /** The handle of its valve that is turned, and how the thing stands. */
  readonly lever: { readonly handle: Handle; readonly pose: Pose } | null;
}

/** Tasks of one thing that stand for one another, or one alone. */
export interface TaskGroup {
  /** The word that they share, or the id of the one service. */
  readonly name: string;
  /** thing/service of each. */
  readonly keys: readonly string[];
}

/** The space of a face is looked for from just within the thing on, past the board that it may be let into, metres. */
const FROM_M = -0.002;
const AS_FAR_AS_M = 0.06;
const STEP_M = 0.004;

/** What is asked of one thing, in the order of the words and ids; nothing while it is not placed. */
export const taskGroups: ComputedStage<readonly TaskGroup[]> = {
  id: 'taskGroups',
  compute: (thingId, read) => {
    const services = read(thing, thingId)?.services;
    if (!services || !read(pose, thingId)) return [];
    const groups = new Map<string, string[]>();
    for (const [id, { either }] of inOrder(services)) {
      const name = either ?? id;
      groups.set(name, [...(groups.get(name) ?? []), `${thingId}/${id}`]);
    }
    return [...groups].map(([name, keys]) => ({ name, keys }));
  },
  same: sameValue,
};

/** Things that ask for service, sorted. */
export const servicedThings: ComputedStage<readonly string[]> = {
  id: 'servicedThings',
  compute: (_, read) => read(thingIds).filter((id) => read(taskGroups, id).length > 0),
  same: sameItems,
};

/** Key: thing/service. Null while it is not placed. */
export const placedTask: ComputedStage<PlacedTask | null> = {
  id: 'placedTask',
  compute: (key, read) => {
    const cut = key.indexOf('/');
    const [id, serviceId] = [key.slice(0, cut), key.slice(cut + 1)];
    const service = read(thing, id)?.services[serviceId];
    const placed = read(pose, id);
    if (!service || !placed) return null;
    const needs = needsOf(service);
    const handle = read(thing, id)?.valve?.handle;
    const face = serviceFace(service, placed);
    const front = inFrontOf(face, read(layout));
    return {
      key,
      thing: id,
      serviceId,
      isPart: read(isPart, id),
      service,
      needs,
      face: { ...face, at: along(face.at, face.direction, front?.outM ?? 0) },
      hands: handPoints(service, needs.hands, placed).map((at) => along(at, face.direction, front?.outM ?? 0)),
      drawn: drawnOut(id, service, needs, face, read(solidsOf, id)),
      compartment: front?.compartment ?? read(compartmentOf, id),
      lever: service.task === 'handle' && handle && handle.leverM > 0 ? { handle, pose: placed } : null,
    };
  },
  same: sameValue,
};

/** What is drawn out is no shorter than this, metres. */
const LEAST_LONG_M = 0.01;

/** The space that a face looks into, and how far out of the thing that begins. */
function inFrontOf(
  { at, direction }: PushedFace,
  rooms: Layout,
): { readonly compartment: string; readonly outM: number } | null {
  for (let outM = FROM_M; outM <= AS_FAR_AS_M; outM += STEP_M) {
    const compartment = rooms.compartmentAt(along(at, direction, outM));
    if (compartment !== null) return { compartment, outM: Math.max(0, outM) };
  }
  return null;
}

/** Of a whole thing that comes out its envelope, else a piece as long as it is said to be, of the section of the service. */
function drawnOut(
  id: string,
  service: Service,
  { withdraw, massKg }: TaskNeeds,
  { at, direction, across, sizeM, round }: PushedFace,
  solids: readonly Solid[],
): Solid | null {
  if (!withdraw) return null;
  const envelope = solids.find(({ layer }) => layer === 'furnishing');
  if (massKg === null && envelope) return envelope;
  // Nothing sticks out behind the thing that it is drawn out of.
  const withinM = envelope ? dot(at, direction) - leastAlong(envelope, direction) : withdraw.longM;
  const longM = Math.max(LEAST_LONG_M, Math.min(withdraw.longM, withinM));
  const start = { id: `${id}/drawn`, owner: id, label: service.name ?? service.task, layer: 'furnishing' } as const;
  const back = along(at, direction, -longM);
  if (round) return { type: 'cylinder', ...start, from: back, to: at, radius: sizeM[0] / 2 };
  return {
    type: 'box',
    ...start,
    centre: along(at, direction, -longM / 2),
    half: [longM / 2, sizeM[0] / 2, sizeM[1] / 2],
    axes: [direction, across, cross(direction, across)],
  };
}

/** Ways to the place of a task. Key: thing/service. */
export const waysTo: ComputedStage<readonly WayToTask[] | NoWay> = {
  id: 'waysTo',
  compute: (key, read) => {
    const task = read(placedTask, key);
    if (!task) return { reason: 'nowhere', subject: key, enterNext: 'arrangements' };
    return waysToTask(task.face.at, task.compartment, {
      layout: read(layout),
      compartments: read(compartmentData),
      openings: read(openings),
      standingPlaces: read(standingPlaces),
    });
  },
  same: sameValue,
};
