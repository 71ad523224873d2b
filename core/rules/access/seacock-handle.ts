import { leverRoom } from '../../assess/access/handle-swing';
import { fromKneeling, KNEELING_ROOM } from '../../assess/access/kneeling';
import { ARM_REACH_M, depthFromOpening } from '../../assess/access/opening-reach';
import { armThrough, BODY_OPENINGS, HAND_OPENINGS } from '../../base/formulas/hand-openings';
import { inOrder } from '../../base/order';
import * as portable from '../../base/portable';
import { along, dot, norm, ORIGIN, pointInBoat, rotationOf, subtract, UP, unit, type Vec3 } from '../../base/vec';
import { LIVING_SPACES } from '../../boat/kinds';
import type { Opening } from '../../boat/schema/boat';
import { canBeShut } from '../../runs/circuit/valves';
import { SolidPack } from '../../shape/space/kernel';
import { countedFaults } from '../counted';
import { defineRule, inBoth, type Verdict } from '../define';
import { greatestDepth } from '../depth-at-heel';
import type { Facts } from '../facts';
import type { SourceRef } from '../finding';
import { type Judged, judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';

/** Sizes of openings after MIL-STD-1472, arm and hand access, light clothing: from memory. */
const LIMITS = inBoth({
  /** An arm alone, from the opening. */
  armM: ARM_REACH_M,
  /** From the shoulder, which is in the opening or inside: upper arm 330, elbow to grip 370 mm. Common practice, no source. */
  fromShoulderM: 0.7,
  /** Least sides of an opening for the head and one shoulder, and to climb in. Common practice, no source. */
  headM: BODY_OPENINGS.headIn[0],
  headLongM: BODY_OPENINGS.headIn[1],
  climbM: BODY_OPENINGS.climbIn[0],
  climbLongM: BODY_OPENINGS.climbIn[1],
  /** Room to kneel inside: wide, long, high. Common practice, no source. */
  kneelWideM: KNEELING_ROOM.wideM,
  kneelLongM: KNEELING_ROOM.longM,
  kneelHighM: KNEELING_ROOM.highM,
  /** Least clear side of an opening for a fist to the wrist, an arm to the elbow and an arm to the shoulder. */
  handFistM: HAND_OPENINGS.handFist.bare.heightM,
  elbowM: HAND_OPENINGS.elbow.bare.heightM,
  shoulderM: HAND_OPENINGS.shoulder.bare.heightM,
  /** From where one stands to the opening: an arm's reach and a lean of the trunk. Project judgement. */
  besideM: 1.2,
});
/** A lever's room is looked for this much further than the lever is long. */
const BEYOND_M = 0.05;

const REACH_SOURCES: readonly SourceRef[] = [
  { key: 'iso-9093', clause: '3', standing: 'quoted' },
  { key: 'nureg-0700', standing: 'derived' },
];
const SIZE_SOURCES: readonly SourceRef[] = [{ key: 'mil-std-1472', standing: 'fromMemory' }];
const PRACTICE: readonly SourceRef[] = [{ key: 'practice', standing: 'commonPractice' }];

/** A seacock is shut in the dark, by whoever is nearest, with the water rising: by hand, at once, without a tool. */
export const seacockHandle = defineRule({
  id: 'access/seacock-handle',
  question: 'Can the handle of every seacock below the heeled waterline be reached and swung at once, without a tool?',
  gravest: 'danger',
  sources: [...REACH_SOURCES, ...SIZE_SOURCES, ...PRACTICE],
  limits: LIMITS,
  cannotSee: [
    'Whether the handle still turns.',
    'What is stowed in front of it.',
    'How the arm bends on its way: the straight distance from the opening, or from the shoulder of who kneels inside, counts.',
    'What is between the opening and a place to kneel.',
    'Sides of the locker and the hull beside the lever.',
  ],
  hazards: ['hullHole'],
  subjects: (facts) => facts.thingIds().filter((id) => facts.thing(id)?.opensToSea),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    if (!thing?.opensToSea || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    if (!canBeShut(thing)) return [{ outcome: 'notApplicable', reason: 'noValve' }];
    const hole = pointInBoat(pose, thing.opensToSea.at);
    const points = [hole, ...Object.values(thing.ports).map((port) => pointInBoat(pose, port.at))];
    const worst = greatestDepth(points, facts);
    const grade = [facts.gradeOfWater(), ...facts.gradesAlong(id, UP)];
    const dry = judge({
      value: greatestDepth([hole], facts).depthM,
      limit: 0,
      bound: 'atMost',
      unit: 'm',
      grade,
    });
    if (dry.met && !dry.closeCall) return [{ outcome: 'notApplicable', reason: 'aboveWater' }];
    const data = { depthM: worst.depthM, heelDeg: worst.heelDeg, down: worst.down };
    const reached = reachOf(id, facts, data);
    const swung = swingOf(id, facts, data);
    return swung.length > 0 && reached.outcome === 'pass' ? swung : [reached, ...swung];
  },
  mends: handleMends,
});

type Data = NonNullable<Verdict['data']>;

function reachOf(id: string, facts: Facts, data: Data): Verdict {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  const compartment = facts.compartmentOf(id);
  const { armM } = LIMITS[facts.profile()];
  if (!thing || !pose || !compartment) {
    const enterNext = `Draw the compartment that holds ${thing?.name ?? id}`;
    return { outcome: 'cannotTell', reason: 'valveNowhere', enterNext, at: pose?.at ?? null, data };
  }
  const handle = pointInBoat(pose, thing.valve?.handle?.at ?? ORIGIN);
  if (LIVING_SPACES.has(facts.compartmentKind(compartment) ?? '')) {
    return {
      outcome: 'pass',
      measured: { value: 0, unit: 'm' },
      limit: { value: armM, unit: 'm', bound: 'atMost' },
      at: handle,
      data: { ...data, posture: 'cabin' },
    };
  }
  const all = inOrder(facts.openings()).filter(([, opening]) => opening.compartment === compartment);
  if (all.length === 0) {
    const enterNext = `Draw the opening into ${facts.compartmentName(compartment)}`;
    return { outcome: 'cannotTell', reason: 'noOpening', enterNext, at: handle, data };
  }
  const byHand = all.filter(([, { how }]) => how !== 'screwed');
  if (byHand.length === 0) {
    const opening = all[0]?.[0] ?? '';
    return {
      outcome: 'fail',
      severity: 'danger',
      reason: 'needsTool',
      ...countedFaults(all.length),
      sources: REACH_SOURCES,
      related: [opening],
      at: handle,
      data: { ...data, opening },
    };
  }
  return byHand
    .map(([opening, record]) => through(id, opening, record, handle, facts, data))
    .reduce((best, one) => (gravity(one) < gravity(best) ? one : best));
}

/** Of several openings the one that serves best counts; of two that serve alike the nearer. */
function gravity(verdict: Verdict): number {
  if (verdict.outcome !== 'fail') return 'measured' in verdict ? verdict.measured.value / 1000 : 0;
  const rank = verdict.severity === 'danger' ? 3 : verdict.severity === 'fault' ? 2 : 1;
  return rank + verdict.measured.value / 1000;
}

function through(id: string, openingId: string, opening: Opening, handle: Vec3, facts: Facts, base: Data): Verdict {
  const limits = LIMITS[facts.profile()];
  const { distanceM, entry } = depthFromOpening(opening, handle);
  const span = subtract(handle, opening.at);
  const grade = [...facts.gradesAlong(id, norm(span) > 0 ? unit(span) : UP), facts.gradeOf(openingId)];
  const { posture, ...reached } = postureFor(opening, distanceM, handle, facts);
  const reach = judge({ ...reached, bound: 'atMost', unit: 'm', grade });
  const data = { ...base, opening: openingId, reachM: distanceM, posture };
  const said = { related: [openingId], at: handle, data, sources: posture === 'arm' ? REACH_SOURCES : PRACTICE };
  if (!reach.met) return { outcome: 'fail', severity: 'danger', reason: 'outOfReach', ...compared(reach), ...said };
  const size = judge({
    value: Math.min(opening.widthM, opening.heightM),
    limit: limits[`${armThrough(distanceM)}M`],
    bound: 'atLeast',
    unit: 'm',
    grade: [facts.gradeOf(openingId)],
  });
  if (posture === 'arm' && !size.met)
    return {
      outcome: 'fail',
      severity: 'danger',
      reason: 'tooNarrow',
      ...compared(size),
      ...said,
      sources: SIZE_SOURCES,
    };
  if (opening.moveFirst.length > 0) {
    return {
      outcome: 'fail',
      severity: 'advice',
      reason: 'moveFirst',
      ...countedFaults(opening.moveFirst.length),
      ...said,
      sources: PRACTICE,
      data: { ...data, first: opening.moveFirst.join(', ') },
    };
  }
  const stands = opening.standing === undefined ? undefined : facts.standingPlaces()[opening.standing];
  if (stands && posture !== 'climb') {
    const from = depthFromOpening(opening, stands.at).entry;
    const beside = judge({
      value: portable.hypot(from[0] - stands.at[0], from[1] - stands.at[1]),
      limit: limits.besideM,
      bound: 'atMost',
      unit: 'm',
      grade: [],
    });
    if (!beside.met)
      return {
        outcome: 'fail',
        severity: 'fault',
        reason: 'standsFar',
        ...compared(beside),
        ...said,
        sources: PRACTICE,
        data: { ...data, standing: stands.name },
      };
  }
  return { outcome: 'pass', ...compared(reach), ...said, at: entry };
}

/** How somebody gets at what lies behind an opening. */
interface Reached {
  readonly posture: 'arm' | 'shoulder' | 'climb';
  readonly value: number;
  readonly limit: number;
}

/** The least that does: an arm alone, head and one shoulder in, climbing in. Where none does, that which comes farthest. */
export function postureFor(opening: Opening, distanceM: number, handle: Vec3, facts: Facts): Reached {
  const limits = LIMITS[facts.profile()];
  const lets = (leastM: number, longM: number): boolean =>
    Math.min(opening.widthM, opening.heightM) >= leastM - SAME_M &&
    Math.max(opening.widthM, opening.heightM) >= longM - SAME_M;
  const arm: Reached = { posture: 'arm', value: distanceM, limit: limits.armM };
  if (distanceM <= limits.armM || !lets(limits.headM, limits.headLongM)) return arm;
  const shoulder: Reached = { posture: 'shoulder', value: distanceM, limit: limits.fromShoulderM };
  if (distanceM <= limits.fromShoulderM || !lets(limits.climbM, limits.climbLongM)) return shoulder;
  const awayM = kneelingAway(opening.compartment, handle, facts);
  return awayM === null ? shoulder : { posture: 'climb', value: awayM, limit: limits.fromShoulderM };
}

/** Openings are entered in whole millimetres. */
const SAME_M = 1e-6;

/** How far the handle is from the shoulder of somebody inside, at least; null where nobody can be near enough. */
function kneelingAway(compartment: string, handle: Vec3, facts: Facts): number | null {
  const { fromShoulderM, kneelWideM, kneelLongM, kneelHighM } = LIMITS[facts.profile()];
  const aroundM = fromShoulderM + kneelHighM;
  const bound = (by: number): Vec3 => [handle[0] + by, handle[1] + by, handle[2] + by];
  const things = facts.solidsIn(bound(-aroundM), bound(aroundM)).filter(({ layer }) => layer === 'furnishing');
  return fromKneeling(handle, compartment, { wideM: kneelWideM, longM: kneelLongM, highM: kneelHighM }, fromShoulderM, {
    layout: facts.layout(),
    hull: facts.hull(),
    things: new SolidPack(things),
  });
}

const compared = ({ met: _met, ...rest }: Judged): Omit<Judged, 'met'> => rest;

/** Nothing where it has no lever. */
function swingOf(id: string, facts: Facts, base: Data): readonly Verdict[] {
  const pose = facts.pose(id);
  const handle = facts.thing(id)?.valve?.handle;
  if (!pose || !handle || handle.leverM <= 0) return [];
  const hub = pointInBoat(pose, handle.at);
  const capM = handle.leverM + BEYOND_M;
  const bound = (by: number): Vec3 => [hub[0] + by, hub[1] + by, hub[2] + by];
  const solids = facts
    .solidsIn(bound(-capM), bound(capM))
    .filter(({ owner, layer }) => owner !== id && (layer === 'furnishing' || layer === 'sweep'));
  const { freeM, blocker, at } = leverRoom(handle, pose, solids, capM);
  if (!blocker) return [];
  const way = norm(subtract(at, hub)) > 1e-6 ? unit(subtract(at, hub)) : UP;
  const room = judge({
    value: freeM,
    limit: handle.leverM,
    bound: 'atLeast',
    unit: 'm',
    grade: [...facts.gradesAlong(id, way), ...facts.gradesAlong(blocker.owner, way)],
  });
  if (room.met) return [];
  return [
    {
      outcome: 'fail',
      severity: 'danger',
      reason: 'leverMeets',
      instance: 'swing',
      ...compared(room),
      sources: [
        { key: 'geometry', standing: 'derived' },
        { key: 'boat-file', standing: 'boatFile' },
      ],
      related: [blocker.owner],
      at,
      data: { ...base, blocker: blocker.owner, blockerLabel: blocker.label },
    },
  ];
}

/** Left between a hand and the end of its reach, metres. */
const SPARED_M = 0.02;

/** An extension on a deep handle, a wider opening, turn-buttons in place of screws. */
function handleMends(
  { subject, reason, data, measured, limit }: FailedFinding,
  { boat, facts }: MendingAt,
): readonly Mend[] {
  const opening = typeof data.opening === 'string' ? data.opening : '';
  const record = boat.openings[opening];
  const pose = facts.pose(subject);
  const thing = facts.thing(subject);
  if (!record || !pose || !thing) return [];
  if (reason === 'needsTool')
    return [
      {
        id: `turn-buttons ${opening}`,
        change: 'add',
        what: { item: 'turnButtons', to: opening },
        recipe: (draft) => {
          const lid = draft.openings[opening];
          if (lid) lid.how = 'liftOut';
        },
      },
    ];
  if (reason === 'tooNarrow') {
    const side = record.widthM <= record.heightM ? 'widthM' : 'heightM';
    return [
      {
        id: `wider ${opening}`,
        change: 'value',
        what: { id: opening, field: side, from: measured.value, to: limit.value },
        recipe: (draft) => {
          const lid = draft.openings[opening];
          if (lid) lid[side] = limit.value;
        },
      },
    ];
  }
  if (reason !== 'outOfReach') return [];
  const handle = pointInBoat(pose, thing.valve?.handle?.at ?? ORIGIN);
  const { entry } = depthFromOpening(record, handle);
  const byM = measured.value - limit.value + SPARED_M;
  const raised = along(handle, unit(subtract(entry, handle)), byM);
  const turn = rotationOf(pose);
  const off = subtract(raised, pose.at);
  const local: [number, number, number] = [dot(off, turn[0]), dot(off, turn[1]), dot(off, turn[2])];
  return [
    {
      id: `extension ${subject}`,
      change: 'add',
      what: { item: 'extensionHandle', to: subject, byM },
      recipe: (draft) => {
        const valve = (draft.fixtures[subject] ?? draft.parts[subject])?.valve;
        if (valve) valve.handle = { leverM: 0, swingDeg: 90, ...valve.handle, at: local };
      },
    },
  ];
}
