import { along, type Pose, rotate, rotationOf, scale, type Vec3 } from '../../base/vec';
import type { Shape } from '../../boat/schema/boat';
import { convexOf } from '../../shape/space/convex';
import { type FreeDepth, freeDepth } from '../../shape/space/free-depth';
import { gapBetween, overlapWithHull, overlapWithWall } from '../../shape/space/overlap';
import type { Solid } from '../../shape/space/solids';
import { type PushedFace, solidBounds } from '../../shape/space/things';
import { wallsNear } from '../../shape/space/walls-near';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import { gradesOfBlocker } from '../grade-of-blocker';
import { type Judged, judge, lessSure, times } from '../judge';

/** Contact this shallow is the rounding of a drag, not an overlap. */
const CONTACT_M = 0.0005;
/** Gaps are looked for this far: half as much again as the coarsest pair of grades could make a close call. */
const LOOK_M = 0.25;

/** Two things cannot be in one place; what looks free on paper may still be inside the tape. */
export const overlap = defineRule({
  id: 'access/overlap',
  question: 'Does every part stand clear of other things, of panels and of the hull?',
  sources: [{ key: 'geometry', standing: 'derived' }],
  cannotSee: [
    'Anything that is not drawn: looms, stringers, trim, nuts on the far side.',
    'The true shape of a part inside its envelope.',
    'The gap to the panel that a part stands against: it is placed against it.',
  ],
  hazards: [],
  subjects: (facts) => facts.thingIds().filter((id) => facts.isPart(id) && facts.pose(id)),
  check(id, facts): readonly Verdict[] {
    const own = facts.solidsOf(id).filter(isBody);
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    if (!thing || !pose || own.length === 0) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    // It stands in the panel that it passes.
    const isInPanel = thing.kind === 'bulkheadUnion';
    if (!isInPanel && !facts.compartmentOf(id))
      return [
        {
          outcome: 'cannotTell',
          reason: 'nowhere',
          enterNext: `Draw the compartment that holds ${thing.name}`,
          at: pose.at,
        },
      ];
    const things = nearestThings(id, own, facts);
    const walls = isInPanel ? [] : wallsCut(own, facts);
    const inHull = thing.opensToSea ? null : hullCut(own, facts);
    const fails = [
      ...things.filter((meet) => meet.gapM < -CONTACT_M).map((meet) => failOf(meet, facts, id, 'overlap')),
      ...walls.map((meet) => failOf(meet, facts, id, 'throughWall')),
      ...(inHull ? [failOf(inHull, facts, id, 'outsideHull')] : []),
    ];
    if (fails.length > 0) return fails;
    const nearest = things[0];
    const compared = judge({
      value: Math.max(0, nearest?.gapM ?? LOOK_M),
      limit: 0,
      bound: 'atLeast',
      unit: 'm',
      grade: nearest ? [...facts.gradesAlong(id, nearest.way), ...facts.gradesAlong(nearest.owner, nearest.way)] : [],
    });
    const tight = thing.opensToSea ? null : tightestBetweenWalls(id, facts);
    if (tight && lessSure(compared, tight.judged) === tight.judged) {
      const { met: _met, ...judged } = tight.judged;
      const data = { blocker: tight.owner, capped: false, between: true };
      return [{ outcome: 'pass', ...judged, related: [tight.owner], at: tight.at, data }];
    }
    const { met: _met, ...judged } = compared;
    const close = judged.closeCall && nearest;
    return [
      {
        outcome: 'pass',
        ...judged,
        related: close ? [nearest.owner] : [],
        at: close ? nearest.at : pose.at,
        data: { blocker: nearest?.owner ?? null, capped: !nearest },
      },
    ];
  },
});

interface Meeting {
  readonly owner: string;
  /** Free distance; negative when they share space: the least shift that parts them. */
  readonly gapM: number;
  readonly at: Vec3;
  /** Along which they are apart, or share the least. */
  readonly way: Vec3;
  /** Of a wall. */
  readonly wallId?: string;
}

const isBody = (solid: Solid): boolean =>
  solid.layer === 'furnishing' || solid.layer === 'sweep' || solid.layer === 'structure';

function failOf(meet: Meeting, facts: Facts, id: string, reason: string): Verdict {
  const hull = reason === 'outsideHull';
  const other = hull
    ? [facts.gradeOfHull(meet.at)]
    : meet.wallId
      ? [facts.gradeOfWall(meet.wallId)]
      : facts.gradesAlong(meet.owner, meet.way);
  const { met: _met, ...compared } = judge({
    value: meet.gapM,
    limit: 0,
    bound: 'atLeast',
    unit: 'm',
    grade: [...facts.gradesAlong(id, meet.way), ...other],
  });
  return {
    outcome: 'fail',
    severity: 'fault',
    reason,
    instance: meet.owner,
    ...compared,
    related: hull ? [] : [meet.owner],
    at: meet.at,
    data: { blocker: meet.owner, depthM: -meet.gapM },
  };
}

/** Every other thing within reach of a close call, nearest first; one entry for each. */
function nearestThings(id: string, own: readonly Solid[], facts: Facts): Meeting[] {
  const worst = new Map<string, Meeting>();
  for (const solid of own) {
    const { low, high } = solidBounds(solid);
    const grow = (p: Vec3, by: number): Vec3 => [p[0] + by, p[1] + by, p[2] + by];
    for (const other of facts.solidsIn(grow(low, -LOOK_M), grow(high, LOOK_M))) {
      if (other.owner === id || !isBody(other) || (solid.layer === 'sweep' && other.layer === 'sweep')) continue;
      const { gapM, at } = gapBetween(solid, other);
      if (gapM >= LOOK_M) continue;
      const known = worst.get(other.owner);
      if (!known || gapM < known.gapM)
        worst.set(other.owner, { owner: other.owner, gapM, at, way: wayBetween({ low, high }, solidBounds(other)) });
    }
  }
  return [...worst.values()].sort((a, b) => a.gapM - b.gapM || (a.owner < b.owner ? -1 : 1));
}

/** Panels and walls that the part cuts, the deepest cut of each. */
function wallsCut(own: readonly Solid[], facts: Facts): Meeting[] {
  const layout = facts.layout();
  const worst = new Map<string, Meeting>();
  for (const solid of own) {
    const { low, high } = convexOf(solid);
    for (const { wall } of wallsNear(layout, low, high)) {
      const cut = overlapWithWall(solid, wall, layout.panels);
      if (!cut || cut.depthM <= CONTACT_M) continue;
      const owner = wall.panelId ?? wall.id;
      const known = worst.get(owner);
      if (!known || -cut.depthM < known.gapM)
        worst.set(owner, { owner, gapM: -cut.depthM, at: cut.at, way: wall.normal, wallId: wall.id });
    }
  }
  return [...worst.values()].sort((a, b) => (a.owner < b.owner ? -1 : 1));
}

function hullCut(own: readonly Solid[], facts: Facts): Meeting | null {
  const hull = facts.hull();
  if (!hull) return null;
  let worst: Meeting | null = null;
  for (const solid of own) {
    const cut = overlapWithHull(solid, hull);
    if (cut && cut.depthM > CONTACT_M && (!worst || -cut.depthM < worst.gapM))
      worst = { owner: 'hull', gapM: -cut.depthM, at: cut.at, way: [0, 1, 0] };
  }
  return worst;
}

interface Bounds {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** The axis along which two bounds are farthest apart, or share the least. */
function wayBetween(a: Bounds, b: Bounds): Vec3 {
  const apart = ([0, 1, 2] as const).map((k) => Math.max(b.low[k] - a.high[k], a.low[k] - b.high[k]));
  const widest = apart.indexOf(Math.max(...apart));
  return [Number(widest === 0), Number(widest === 1), Number(widest === 2)];
}

interface Tight {
  readonly judged: Judged;
  readonly owner: string;
  readonly at: Vec3;
}

/**
 * Room that a part has between what bounds it on either side, along each of its own axes. A part is put against one side, so
 * it is the whole play that counts: too little of it, and the part may not go in between at all. One that stands free of a side
 * may reach it when it is larger than was said.
 */
function tightestBetweenWalls(id: string, facts: Facts): Tight | null {
  const shape = facts.thing(id)?.shape;
  const pose = facts.pose(id);
  if (!shape || !pose) return null;
  const around = { layout: facts.layout(), hull: facts.hull(), solids: [] };
  let tightest: Tight | null = null;
  for (const { face, back } of facesAcross(shape, pose)) {
    const doubt = ({ freeM, blocker }: FreeDepth, grade: readonly GradeShare[]): void => {
      const judged = judge({ value: freeM, limit: 0, bound: 'atLeast', unit: 'm', grade });
      if (blocker && judged.closeCall && (!tightest || lessSure(tightest.judged, judged) === judged))
        tightest = { judged, owner: blocker.owner, at: blocker.at };
    };
    const size = facts.gradesAlong(id, face.direction);
    const ahead = freeDepth(face, LOOK_M, around);
    const behind = freeDepth(back, LOOK_M, around);
    // What is not put against a side keeps its middle: half of what it is larger goes to either side.
    for (const end of [ahead, behind])
      if (end.freeM > CONTACT_M)
        doubt(
          end,
          size.map((share) => times(share, 0.5)),
        );
    if (!ahead.blocker || !behind.blocker) continue;
    const sides = [ahead.blocker, behind.blocker].flatMap((blocker) => gradesOfBlocker(blocker, face.direction, facts));
    const blocker = ahead.freeM <= behind.freeM ? ahead.blocker : behind.blocker;
    doubt({ freeM: ahead.freeM + behind.freeM, blocker }, [...size, ...sides]);
  }
  return tightest;
}

/** The faces at both ends of each axis of an envelope. The side of a cylinder is taken as the strip where it is widest. */
function facesAcross(shape: Shape, pose: Pose): readonly { readonly face: PushedFace; readonly back: PushedFace }[] {
  const turn = rotationOf(pose);
  const round = shape.type === 'cylinder' ? 'xyz'.indexOf(shape.axis) : -1;
  const sizes =
    shape.type === 'box' ? shape.sizeM : [0, 1, 2].map((k) => (k === round ? shape.lengthM : shape.diameterM));
  return [0, 1, 2].map((k) => {
    const [u, v] = [(k + 1) % 3, (k + 2) % 3];
    const axisOf = (axis: number): Vec3 => rotate(turn, [Number(axis === 0), Number(axis === 1), Number(axis === 2)]);
    const wide = (axis: number): number => (round >= 0 && round !== k && axis !== round ? STRIP_M : (sizes[axis] ?? 0));
    const half = (sizes[k] ?? 0) / 2;
    const end = (sign: 1 | -1): PushedFace => ({
      at: along(pose.at, axisOf(k), sign * half),
      direction: scale(axisOf(k), sign),
      across: axisOf(u),
      sizeM: [wide(u), wide(v)],
      round: round === k,
    });
    return { face: end(1), back: end(-1) };
  });
}
const STRIP_M = 0.002;
