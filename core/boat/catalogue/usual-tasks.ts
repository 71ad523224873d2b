import type { Vec3 } from '../../base/vec';
import type { Service, Thing } from '../schema/boat';
import { service } from '../schema/services';
import { halfOf } from './face-places';
import { FIXTURE_TEMPLATES } from './fixture-templates';
import { PART_TEMPLATES } from './part-templates';
import { type PartDraft, partOf, type Template } from './templates';

const volumeOf = (thing: Pick<Thing, 'shape'>): number =>
  halfOf(thing.shape).reduce((product, half) => product * half, 8);

/** The template of its kind that is nearest to a thing in size; null where there is none with tasks. */
function nearestTemplate(thing: Pick<Thing, 'kind' | 'shape'>): Template | null {
  const own = volumeOf(thing);
  const ratio = (draft: PartDraft): number => {
    const other = volumeOf(partOf({ id: 'one', group: 'aboard', draft }));
    return Math.max(own, other) / Math.min(own, other);
  };
  return [...PART_TEMPLATES, ...FIXTURE_TEMPLATES]
    .filter(({ draft }) => draft.kind === thing.kind && draft.kind !== 'other' && draft.services !== undefined)
    .reduce<Template | null>((best, one) => (!best || ratio(one.draft) < ratio(best.draft) ? one : best), null);
}

/**
 * Tasks that things of its kind usually have and this one has not, by id: from the template nearest in size, their places moved in
 * proportion to its envelope, without a clear space of their own until its owner says how much.
 */
export function usualTasks(thing: Pick<Thing, 'kind' | 'shape' | 'services'>): Readonly<Record<string, Service>> {
  const template = nearestTemplate(thing);
  if (!template) return {};
  const part = partOf(template);
  const [from, to] = [halfOf(part.shape), halfOf(thing.shape)];
  const has = new Set(Object.values(thing.services).map(({ task }) => task));
  return Object.fromEntries(
    Object.entries(part.services)
      .filter(([id, { task }]) => task !== 'air' && !has.has(task) && !Object.hasOwn(thing.services, id))
      .map(([id, task]) => [id, moved(task, from, to)]),
  );
}

function moved(task: Service, from: Vec3, to: Vec3): Service {
  const { clearM, ...rest } = task;
  const at = task.at.map((value, k) => Math.round(((value * (to[k] ?? 0)) / (from[k] || 1)) * 1000) / 1000);
  // what is drawn out goes as far as its clear space went
  return service.parse({ ...rest, at, ...(clearM > 0 && rest.withdrawM === undefined ? { withdrawM: clearM } : {}) });
}

/** Tasks that are done from below. */
const FROM_BELOW: ReadonlySet<Service['task']> = new Set(['bowlDrop', 'carbon', 'oilDrain']);

/** A task of a thing as it begins: in the middle of its top, or under it, to be moved where it really is. */
export function taskOn(thing: Pick<Thing, 'shape'>, task: Service['task']): Service {
  const up = FROM_BELOW.has(task) ? -1 : 1;
  return service.parse({ task, at: [0, 0, up * halfOf(thing.shape)[2]], direction: [0, 0, up] });
}
