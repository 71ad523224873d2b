import { along, distance, dot, pointInBoat, subtract, type Vec3 } from '../../base/vec';
import { nearestOnPolygon } from '../../shape/layout/polygon';
import type { Layout } from '../../shape/layout/types';
import { wallsNear } from '../../shape/space/walls-near';
import { isPressureLine, kindOfLine } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';

/** Common practice, from memory. */
const LIMITS = inBoth({ awayM: 0.5 });
/** Nearer than this to the joint nothing shields, metres: the plate that it is screwed to. At the head the side of the berth may lie so near. */
const END_M = 1e-3;

/** A joint that lets go at 55 bar cuts skin and blinds: nobody should have an ear beside one. */
export const pressureNearBerth = defineRule({
  id: 'runs/pressure-near-berth',
  question: 'Does every pressure joint keep away from where heads lie, or is it shielded?',
  sources: [{ key: 'practice', standing: 'fromMemory' }],
  limits: LIMITS,
  cannotSee: [
    'Doors, lids and boards that stand open.',
    'Covers over joints that are not entered.',
    'Where heads lie in a berth without pillows: all of the berth counts.',
  ],
  hazards: ['highPressure'],
  subjects: (facts) => facts.lineIds().filter((id) => isPressureLine(id, facts)),
  check(lineId, facts): readonly Verdict[] {
    const line = facts.line(lineId);
    if (!line) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const joints = (['from', 'to'] as const).flatMap((end) => {
      const pose = facts.pose(line[end].thing);
      const port = facts.thing(line[end].thing)?.ports[line[end].port];
      return pose && port ? [{ end, thing: line[end].thing, at: pointInBoat(pose, port.at) }] : [];
    });
    if (joints.length === 0) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const { awayM } = LIMITS[facts.profile()];
    const verdicts = joints.flatMap(({ end, thing, at }): Verdict[] => {
      const fitting = line.ends[end] ?? kindOfLine(lineId, facts)?.end;
      const head = fitting?.shielded ? null : nearestHead(at, facts);
      if (!head) return [];
      const { met, ...compared } = judge({
        value: distance(at, head.at),
        limit: awayM,
        bound: 'atLeast',
        unit: 'm',
        grade: [...facts.gradesAlong(thing, [1, 0, 0]), facts.gradeOf(head.berth)],
      });
      const said = { instance: end, ...compared, related: [thing, head.berth], at, data: { thing, ...head, at: null } };
      return [met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'fault', reason: 'nearHead', ...said }];
    });
    const failing = verdicts.filter(({ outcome }) => outcome === 'fail');
    if (failing.length > 0) return failing;
    return [verdicts[0] ?? { outcome: 'notApplicable', reason: 'noneNear' }];
  },
  mends: shields,
});

interface Head {
  readonly berth: string;
  readonly isPillow: boolean;
  readonly at: Vec3;
}

/** Heads within sight are looked for this far. */
const LOOK_M = 1;

/** The nearest place where a head may lie that nothing drawn stands before; none within a metre. */
function nearestHead(joint: Vec3, facts: Facts): Head | null {
  const layout = facts.layout();
  const heads = Object.entries(facts.berths()).flatMap(([berth, pillows]): Head[] =>
    pillows.length > 0
      ? pillows.map((at) => ({ berth, isPillow: true, at }))
      : nearestIn(berth, joint, layout).map((at) => ({ berth, isPillow: false, at })),
  );
  return heads
    .filter(({ at }) => distance(at, joint) < LOOK_M && !isShielded(joint, at, layout))
    .reduce<Head | null>(
      (best, one) => (!best || distance(one.at, joint) < distance(best.at, joint) ? one : best),
      null,
    );
}

/** Nearest point of each box about a piece of a compartment. */
const nearestIn = (compartment: string, point: Vec3, layout: Layout): readonly Vec3[] =>
  (layout.cellsOf[compartment] ?? []).flatMap((index) => {
    const cell = layout.cells[index];
    if (!cell) return [];
    const within = (k: 0 | 1 | 2): number => Math.max(cell.low[k], Math.min(cell.high[k], point[k]));
    return [[within(0), within(1), within(2)] as const];
  });

/** A panel or a side of a compartment stands between. */
function isShielded(from: Vec3, to: Vec3, layout: Layout): boolean {
  const span = subtract(to, from);
  const lengthM = distance(from, to);
  const bound = (pick: (a: number, b: number) => number, by: number): Vec3 => [
    pick(from[0], to[0]) + by,
    pick(from[1], to[1]) + by,
    pick(from[2], to[2]) + by,
  ];
  return wallsNear(layout, bound(Math.min, -END_M), bound(Math.max, END_M)).some(({ wall }) => {
    const [corner] = wall.polygon;
    const speed = dot(wall.normal, span);
    if (!corner || Math.abs(speed) < 1e-9) return false;
    const share = dot(wall.normal, subtract(corner, from)) / speed;
    if (share * lengthM < END_M || (share - 1) * lengthM > END_M) return false;
    const hit = along(from, span, share);
    return distance(hit, nearestOnPolygon(wall.polygon, wall.normal, hit)) < 1e-6;
  });
}

function shields({ key, subject }: FailedFinding, { boat, facts }: MendingAt): readonly Mend[] {
  const end = key.endsWith('|to') ? 'to' : 'from';
  const fitting = boat.lines[subject]?.ends[end] ?? kindOfLine(subject, facts)?.end ?? {};
  return [
    {
      id: `shield ${subject} ${end}`,
      change: 'add',
      what: { item: 'jointCover', to: boat.lines[subject]?.[end].thing ?? subject },
      recipe: (draft) => {
        const line = draft.lines[subject];
        if (line) line.ends[end] = { angleDeg: 0, swivel: false, crimped: false, ...fitting, shielded: true };
      },
    },
  ];
}
