import { liftsFor, type ServicedRoom, serviceRoom } from '../../assess/access/service-room';
import { inOrder } from '../../base/order';
import * as portable from '../../base/portable';
import { add, along, cross, type Pose, unit, type Vec2, type Vec3 } from '../../base/vec';
import { CLEAN_MARGIN, combine } from '../../boat/accuracy';
import type { Service } from '../../boat/schema/boat';
import type { Layout } from '../../shape/layout/types';
import { type FreeDepth, freeDepth } from '../../shape/space/free-depth';
import type { Solid } from '../../shape/space/solids';
import { type PushedFace, servicesWithRoom } from '../../shape/space/things';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { gradesOfBlocker } from '../grade-of-blocker';
import { type Judged, judge, lessSure, slipUntil } from '../judge';

/** A part that fits and cannot be serviced is in the wrong place. */
export const serviceSpace = defineRule({
  id: 'access/service-space',
  question: 'Has every bowl, element, cover and glass the clear space that its service needs?',
  sources: [
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  cannotSee: [
    'Hoses and cables in the way.',
    'Whether a hand, an arm or an eye gets there.',
    'What is stowed there.',
    'What the plan takes from what is aboard already: that is told apart.',
  ],
  hazards: [],
  subjects: (facts) => facts.thingIds().filter((id) => Object.keys(servicesWithRoom(facts.thing(id))).length > 0),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    if (!thing || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const verdicts: Verdict[] = [];
    const alternatives = new Map<string, Room[]>();
    for (const [key, service] of inOrder(servicesWithRoom(thing))) {
      const room = roomOf(id, key, service, facts);
      if (!room) continue;
      if (service.either) alternatives.set(service.either, [...(alternatives.get(service.either) ?? []), room]);
      else verdicts.push(verdictOf(room, key));
    }
    // of alternatives, the roomiest speaks for all of them
    for (const [name, rooms] of alternatives) {
      const best = rooms.reduce((a, b) =>
        (Number(b.judged.met) - Number(a.judged.met) ||
          b.free.freeM / b.service.clearM - a.free.freeM / a.service.clearM) > 0
          ? b
          : a,
      );
      verdicts.push(verdictOf(best, name));
    }
    return verdicts;
  },
});

interface Room {
  readonly key: string;
  readonly service: Service;
  readonly free: FreeDepth;
  readonly judged: Judged;
  readonly at: Vec3;
}

function roomOf(id: string, key: string, service: Service, facts: Facts): Room | null {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  if (!thing || !pose) return null;
  const around = {
    layout: facts.layout(),
    hull: facts.hull(),
    openings: facts.openings(),
    solidsIn: (low: Vec3, high: Vec3) => solidsBeside(id, low, high, facts),
  };
  const room = (asked: Service) => serviceRoom(asked, pose, around).free;
  const { face, free } = serviceRoom(service, pose, around);
  const way = face.direction;
  const grade = [...facts.gradesAlong(id, way), ...(free.blocker ? gradesOfBlocker(free.blocker, way, facts) : [])];
  const ahead = judge({ value: free.freeM, limit: service.clearM, bound: 'atLeast', unit: 'm', grade });
  const beside = ahead.met ? growing(id, service, face, facts) : shrinking(id, service, free, face, room, facts);
  const through = ahead.met ? throughLid(id, service, pose, facts, around) : null;
  const judged = [beside, through].reduce<Judged>(
    (least, doubt) => (doubt ? { ...ahead, ...doubtOf(lessSure(least, doubt)) } : least),
    ahead,
  );
  return { key, service, free, judged, at: along(face.at, way, free.freeM / 2) };
}

/** What is aboard already is judged against what is: what the plan takes from it is told by access/services-taken. */
const solidsBeside = (id: string, low: Vec3, high: Vec3, facts: Facts): readonly Solid[] =>
  (facts.isPart(id) ? facts.solidsIn(low, high) : facts.fixedSolidsIn(low, high)).filter(({ owner }) => owner !== id);

/** What stands beside the room, not ahead, may reach into it, or may not really: how far the judgement bears that. */
const doubtOf = ({ closeCall, gradeFrom }: Judged): Pick<Judged, 'closeCall' | 'gradeFrom'> => ({
  ...(closeCall ? { closeCall } : {}),
  ...(gradeFrom ? { gradeFrom } : {}),
});

/** Two things are looked for beside the room as far as the coarsest pair of grades could bring one in. */
const BESIDE_M = 0.22;

const sideways = ({ direction, across }: PushedFace): Vec3 => unit(add(across, cross(direction, across)));
const wider = (sizeM: Vec2, byM: number): [number, number] => [
  Math.max(1e-3, sizeM[0] + 2 * byM),
  Math.max(1e-3, sizeM[1] + 2 * byM),
];

/** Of room that suffices: how near a thing stands beside it. A wall beside it carries the thing along and takes nothing. */
function growing(id: string, { clearM }: Service, face: PushedFace, facts: Facts): Judged | null {
  const end = along(face.at, face.direction, clearM);
  const reach = portable.hypot(...face.sizeM) / 2 + BESIDE_M;
  const bound = (pick: (a: number, b: number) => number, by: number): Vec3 =>
    [0, 1, 2].map((k) => pick(face.at[k] ?? 0, end[k] ?? 0) + by) as unknown as Vec3;
  const solids = solidsBeside(id, bound(Math.min, -reach), bound(Math.max, reach), facts).filter(
    ({ layer }) => layer !== 'serviceKeepOut' && layer !== 'run',
  );
  if (solids.length === 0) return null;
  const around = { layout: facts.layout(), hull: null, solids, withoutWalls: allWalls(facts.layout()) };
  const grown = (byM: number) => freeDepth({ ...face, sizeM: wider(face.sizeM, byM) }, clearM, around);
  const met = grown(BESIDE_M).blocker;
  if (!met) return null;
  const grade = [...facts.gradesAlong(id, sideways(face)), ...gradesOfBlocker(met, sideways(face), facts)];
  const most = CLEAN_MARGIN * combine(...grade.map(({ gradeM }) => gradeM));
  const slipM = slipUntil((byM) => grown(byM).blocker === null, most);
  return slipM >= most ? null : judge({ value: slipM, limit: 0, bound: 'atLeast', unit: 'm', grade });
}

/** Of room that does not: how far the thing ahead reaches into it from the side. */
function shrinking(
  id: string,
  service: Service,
  { blocker }: FreeDepth,
  face: PushedFace,
  room: (service: Service) => FreeDepth,
  facts: Facts,
): Judged | null {
  if (!blocker) return null;
  const grade = [...facts.gradesAlong(id, sideways(face)), ...gradesOfBlocker(blocker, sideways(face), facts)];
  const most = CLEAN_MARGIN * combine(...grade.map(({ gradeM }) => gradeM));
  const stops = (byM: number) => room({ ...service, acrossM: wider(service.acrossM, -byM) }).freeM < service.clearM;
  const depthM = slipUntil(stops, most);
  return depthM >= most ? null : judge({ value: -depthM, limit: 0, bound: 'atLeast', unit: 'm', grade });
}

/** Of room that a lid gives: how near its edge the work goes past. */
function throughLid(id: string, service: Service, pose: Pose, facts: Facts, around: ServicedRoom): Judged | null {
  const lids = Object.entries(around.openings).filter(([, record]) => liftsFor(service, pose, around.layout, record));
  if (lids.length === 0) return null;
  const suffices = (openings: ServicedRoom['openings']): boolean =>
    serviceRoom(service, pose, { ...around, openings }).free.freeM >= service.clearM;
  if (suffices({})) return null;
  const [lid, opening] = lids.find(([one, record]) => suffices({ [one]: record })) ?? [];
  if (lid === undefined || !opening) return null;
  const grade = [facts.gradeOf(id), facts.gradeOf(lid)];
  const most = CLEAN_MARGIN * combine(...grade.map(({ gradeM }) => gradeM));
  const smaller = (byM: number) => ({
    ...opening,
    widthM: Math.max(1e-3, opening.widthM - 2 * byM),
    heightM: Math.max(1e-3, opening.heightM - 2 * byM),
  });
  const slipM = slipUntil((byM) => suffices({ [lid]: smaller(byM) }), most);
  return slipM >= most ? null : judge({ value: slipM, limit: 0, bound: 'atLeast', unit: 'm', grade });
}

const WALLS = new WeakMap<Layout, ReadonlySet<string>>();

function allWalls(layout: Layout): ReadonlySet<string> {
  const known = WALLS.get(layout) ?? new Set(layout.walls.map(({ id }) => id));
  WALLS.set(layout, known);
  return known;
}

function verdictOf({ service, free, judged, at }: Room, instance: string): Verdict {
  const { met, ...compared } = judged;
  const blocker = free.blocker;
  const verdict = {
    instance,
    ...compared,
    related: blocker ? [blocker.owner] : [],
    at: blocker?.at ?? at,
    data: {
      task: service.name ?? service.task,
      freeM: free.freeM,
      blocker: blocker?.owner ?? null,
      blockerLabel: blocker?.label ?? null,
      capped: !blocker,
    },
  };
  return met
    ? { outcome: 'pass', ...verdict }
    : { outcome: 'fail', severity: 'fault', reason: 'tooLittle', ...verdict };
}
