import { serviceRoom } from '../../assess/access/service-room';
import { along, type Pose, type Vec3 } from '../../base/vec';
import type { Service } from '../../boat/schema/boat';
import type { FreeDepth } from '../../shape/space/free-depth';
import type { Solid } from '../../shape/space/solids';
import { serviceSolid, solidBounds } from '../../shape/space/things';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { gradesOfBlocker } from '../grade-of-blocker';
import { judge } from '../judge';

/** A watermaker that is in the way of the stuffing box has cost the boat more than it brings. */
export const servicesTaken = defineRule({
  id: 'access/services-taken',
  question: 'Is everything aboard still as serviceable as it was before the plan?',
  sources: [
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  cannotSee: [
    'Hoses and cables of the plan: where they lie in room for service is told apart.',
    'Whether a part can be lifted out of the way for the job.',
    'Service that nobody has entered.',
  ],
  hazards: [],
  subjects: (facts) =>
    facts.thingIds().filter((id) => !facts.isPart(id) && Object.keys(facts.thing(id)?.services ?? {}).length > 0),
  check(id, facts): readonly Verdict[] {
    const pose = facts.pose(id);
    const services = facts.thing(id)?.services;
    if (!pose || !services) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const tasks = byAlternative(services).map(([name, all]) => taskOf(name, all, id, pose, facts));
    const [before, after] = [tasks.filter((task) => task.before), tasks.filter((task) => task.after)];
    if (before.length === 0) return [{ outcome: 'notApplicable', reason: 'noneBefore' }];
    const counts = { before: before.length, now: after.length };
    const taken = before.filter((task) => !task.after);
    if (taken.length > 0) return taken.map((task) => takenBy(task, id, counts, facts));
    const least = before.reduce((a, b) => (b.now.freeM / b.service.clearM < a.now.freeM / a.service.clearM ? b : a));
    const { met: _met, ...compared } = judge({
      value: least.now.freeM,
      limit: least.service.clearM,
      bound: 'atLeast',
      unit: 'm',
      grade: [],
    });
    return [
      {
        outcome: 'pass',
        ...compared,
        at: pose.at,
        data: { ...counts, task: least.service.name ?? least.service.task, capped: !least.now.blocker },
      },
    ];
  },
});

interface Task {
  readonly name: string;
  /** The alternative that was the roomiest before, or is now. */
  readonly service: Service;
  readonly way: Vec3;
  readonly at: Vec3;
  readonly free: FreeDepth;
  readonly now: FreeDepth;
  /** Whether it could be done without the plan, and whether it can be done with it. */
  readonly before: boolean;
  readonly after: boolean;
}

const byAlternative = (
  services: Readonly<Record<string, Service>>,
): readonly (readonly [string, readonly Service[]])[] => {
  const groups = new Map<string, Service[]>();
  for (const key of Object.keys(services).sort()) {
    const service = services[key];
    if (service) groups.set(service.either ?? key, [...(groups.get(service.either ?? key) ?? []), service]);
  }
  return [...groups];
};

function taskOf(name: string, all: readonly Service[], id: string, pose: Pose, facts: Facts): Task {
  const tried = all.map((service): Task => {
    const { layout, hull, openings } = { layout: facts.layout(), hull: facts.hull(), openings: facts.openings() };
    const room = (solidsIn: (low: Vec3, high: Vec3) => readonly Solid[]) =>
      serviceRoom(service, pose, {
        layout,
        hull,
        openings,
        solidsIn: (low, high) => solidsIn(low, high).filter(({ owner }) => owner !== id),
      });
    const { face, free } = room(facts.fixedSolidsIn);
    const asked = serviceSolid({ id, owner: id, label: name, layer: 'serviceKeepOut' }, service, pose);
    const { low, high } = solidBounds(asked);
    const isTouched = facts.solidsIn(low, high).length > facts.fixedSolidsIn(low, high).length;
    const now = isTouched ? room(facts.solidsIn).free : free;
    const suffices = ({ freeM }: FreeDepth): boolean => freeM >= service.clearM - 1e-9;
    const at = along(face.at, face.direction, now.freeM / 2);
    return { name, service, way: face.direction, at, free, now, before: suffices(free), after: suffices(now) };
  });
  const rank = ({ before, after, now, service }: Task): number =>
    Number(after) * 100 + Number(before) * 10 + Math.min(1, now.freeM / service.clearM);
  return tried.reduce((best, one) => (rank(one) > rank(best) ? one : best));
}

function takenBy({ name, service, way, at, free, now }: Task, id: string, counts: object, facts: Facts): Verdict {
  const { blocker } = now;
  const { met: _met, ...compared } = judge({
    value: now.freeM,
    limit: service.clearM,
    bound: 'atLeast',
    unit: 'm',
    grade: [...facts.gradesAlong(id, way), ...(blocker ? gradesOfBlocker(blocker, way, facts) : [])],
  });
  return {
    outcome: 'fail',
    severity: 'fault',
    reason: 'taken',
    instance: name,
    ...compared,
    related: blocker ? [blocker.owner] : [],
    at: blocker?.at ?? at,
    data: {
      ...counts,
      task: service.name ?? service.task,
      beforeM: free.freeM,
      wasCapped: !free.blocker,
      blocker: blocker?.owner ?? null,
      blockerLabel: blocker?.label ?? null,
    },
  };
}
