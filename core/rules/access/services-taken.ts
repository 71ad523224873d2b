import { serviceRoom } from '../../assess/access/service-room';
import { inOrder } from '../../base/order';
import { along, dot, type Pose, scale, subtract, type Vec3 } from '../../base/vec';
import type { Service } from '../../boat/schema/boat';
import type { FreeDepth } from '../../shape/space/free-depth';
import { SolidPack } from '../../shape/space/kernel';
import { gapBetween } from '../../shape/space/overlap';
import type { Solid } from '../../shape/space/solids';
import { serviceSolid, servicesWithRoom, solidBounds } from '../../shape/space/things';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { gradesOfBlocker } from '../grade-of-blocker';
import { type Judged, judge, lessSure } from '../judge';

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
  subjects: (facts) => {
    const hasLimbers = Object.keys(facts.flooding()?.limberHoles ?? {}).length > 0;
    return facts
      .thingIds()
      .filter((id) => (facts.isPart(id) ? hasLimbers : Object.keys(servicesWithRoom(facts.thing(id))).length > 0));
  },
  check(id, facts): readonly Verdict[] {
    if (facts.isPart(id)) return limbersCovered(id, facts);
    const pose = facts.pose(id);
    const thing = facts.thing(id);
    if (!pose || !thing) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const tasks = byAlternative(servicesWithRoom(thing)).map(([name, all]) => taskOf(name, all, id, pose, facts));
    const [before, after] = [tasks.filter((task) => task.before), tasks.filter((task) => task.after)];
    const counts = { before: before.length, now: after.length };
    const taken = before.filter((task) => !task.after);
    if (taken.length > 0) return taken.map((task) => takenBy(task, id, counts, facts));
    const nearest = before.reduce<Task | null>(
      (best, task) => (task.part && (!best?.part || task.part.gapM < best.part.gapM) ? task : best),
      null,
    );
    if (!nearest?.part) return [{ outcome: 'pass', ...countedFaults(0), at: pose.at, data: counts }];
    const { met: _met, ...compared } = besideOf(nearest, id, facts);
    const { service, part } = nearest;
    return [
      {
        outcome: 'pass',
        ...compared,
        related: [part.owner],
        at: part.at,
        data: { ...counts, task: service.name ?? service.task, blocker: part.owner, blockerLabel: part.label },
      },
    ];
  },
});

/** Parts are looked for so far from the room of a task: as far as the coarsest pair of grades could bring one in. */
const LOOK_M = 0.22;

/** How far the nearest part stands from the room of a task, and whether it may really reach into it. */
const besideOf = ({ part, way }: Task, id: string, facts: Facts): Judged =>
  judge({
    value: part?.gapM ?? LOOK_M,
    limit: 0,
    bound: 'atLeast',
    unit: 'm',
    grade: [...facts.gradesAlong(id, way), ...(part ? facts.gradesAlong(part.owner, way) : [])],
  });

interface Task {
  readonly name: string;
  /** The alternative that was the roomiest before, or is now. */
  readonly service: Service;
  readonly way: Vec3;
  readonly at: Vec3;
  readonly free: FreeDepth;
  readonly now: FreeDepth;
  /** The part that stands nearest to the room that it asks for, negative by how deep it stands in it; null where none is near. */
  readonly part: NearPart | null;
  /** Whether it could be done without the plan, and whether it can be done with it. */
  readonly before: boolean;
  readonly after: boolean;
}

interface NearPart {
  readonly owner: string;
  readonly label: string;
  readonly gapM: number;
  readonly at: Vec3;
}

const byAlternative = (
  services: Readonly<Record<string, Service>>,
): readonly (readonly [string, readonly Service[]])[] => {
  const groups = new Map<string, Service[]>();
  for (const [key, service] of inOrder(services))
    groups.set(service.either ?? key, [...(groups.get(service.either ?? key) ?? []), service]);
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
    const part = nearestPart(
      serviceSolid({ id, owner: id, label: name, layer: 'serviceKeepOut' }, service, pose),
      facts,
    );
    // what stands clear of the room that is asked for takes nothing
    const now = part && part.gapM < TOUCH_M ? room(facts.solidsIn).free : free;
    const suffices = ({ freeM }: FreeDepth): boolean => freeM >= service.clearM - 1e-9;
    const at = along(face.at, face.direction, now.freeM / 2);
    return { name, service, way: face.direction, at, free, now, part, before: suffices(free), after: suffices(now) };
  });
  const rank = ({ before, after, now, service }: Task): number =>
    Number(after) * 100 + Number(before) * 10 + Math.min(1, now.freeM / service.clearM);
  return tried.reduce((best, one) => (rank(one) > rank(best) ? one : best));
}

/** A part nearer than this to the room may stand in it. */
const TOUCH_M = 1e-6;

function nearestPart(asked: Solid, facts: Facts): NearPart | null {
  const { low, high } = solidBounds(asked);
  const by = (point: Vec3, m: number): Vec3 => [point[0] + m, point[1] + m, point[2] + m];
  return facts
    .solidsIn(by(low, -LOOK_M), by(high, LOOK_M))
    .filter(({ owner, layer }) => (layer === 'furnishing' || layer === 'sweep') && facts.isPart(owner))
    .map((solid): NearPart => ({ owner: solid.owner, label: solid.label, ...gapBetween(asked, solid) }))
    .filter(({ gapM }) => gapM < LOOK_M)
    .reduce<NearPart | null>((best, one) => (!best || one.gapM < best.gapM ? one : best), null);
}

function takenBy(task: Task, id: string, counts: object, facts: Facts): Verdict {
  const { name, service, way, at, free, now } = task;
  const { blocker } = now;
  const ahead = judge({
    value: now.freeM,
    limit: service.clearM,
    bound: 'atLeast',
    unit: 'm',
    grade: [...facts.gradesAlong(id, way), ...(blocker ? gradesOfBlocker(blocker, way, facts) : [])],
  });
  // it may be that what reaches in from the side does not really
  const { closeCall, gradeFrom } = lessSure(ahead, besideOf(task, id, facts));
  const compared = {
    measured: ahead.measured,
    limit: ahead.limit,
    ...(closeCall ? { closeCall } : {}),
    ...(gradeFrom ? { gradeFrom } : {}),
  };
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

/** Limber holes before which a part stands: bilge water no longer gets through, and nobody gets at them to clear them. */
function limbersCovered(partId: string, facts: Facts): readonly Verdict[] {
  const solids = facts.solidsOf(partId).filter(({ layer }) => layer === 'furnishing');
  if (solids.length === 0) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
  const pack = new SolidPack(solids);
  const covered = inOrder(facts.flooding()?.limberHoles ?? {}).flatMap(
    ([hole, { between, at, diameterM }]): Verdict[] => {
      const before = sidesOf(between, at, facts).flatMap(({ face, way }) => {
        const front = along(face, way, diameterM);
        const asideM = Math.min(...solids.map((_, k) => pack.distance(k, ...face, ...front, diameterM)));
        if (asideM > diameterM / 2 - TOUCH_M) return [];
        const freeM = Math.max(0, Math.min(...solids.map((_, k) => pack.distance(k, ...face, ...face, diameterM))));
        return [{ freeM, way }];
      });
      const [first] = before.sort((a, b) => a.freeM - b.freeM);
      if (!first) return [];
      const { met, ...compared } = judge({
        value: first.freeM,
        limit: diameterM,
        bound: 'atLeast',
        unit: 'm',
        grade: facts.gradesAlong(partId, first.way),
      });
      if (met) return [];
      const said = { instance: hole, related: [...between], at, data: { hole } };
      return [{ outcome: 'fail', severity: 'fault', reason: 'limberCovered', ...compared, ...said }];
    },
  );
  return covered.length > 0 ? covered : [{ outcome: 'notApplicable', reason: 'coversNone' }];
}

/** Both sides of the panel in which a limber hole is, and the ways out of it; of a hole without a panel its middle, and every level way. */
function sidesOf(
  between: readonly [string, string],
  at: Vec3,
  facts: Facts,
): readonly { readonly face: Vec3; readonly way: Vec3 }[] {
  const panel = Object.values(facts.layout().panels)
    .filter((one) => between.includes(one.between[0]) && between.includes(one.between[1]))
    .map((one) => ({ one, offM: Math.abs(dot(subtract(at, one.pieces[0]?.[0] ?? at), one.normal)) }))
    .sort((a, b) => a.offM - b.offM)[0]?.one;
  const ways: readonly Vec3[] = panel
    ? [panel.normal]
    : [
        [1, 0, 0],
        [0, 1, 0],
      ];
  const offM = panel ? Math.max(panel.gapM, 0) / 2 : 0;
  return ways.flatMap((way) => [way, scale(way, -1)].map((out) => ({ face: along(at, out, offM), way: out })));
}
