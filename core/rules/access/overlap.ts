import type { Vec3 } from '../../base/vec';
import { convexOf } from '../../shape/space/convex';
import { gapBetween, overlapWithHull, overlapWithWall } from '../../shape/space/overlap';
import type { Solid } from '../../shape/space/solids';
import { solidBounds } from '../../shape/space/things';
import { wallsNear } from '../../shape/space/walls-near';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';

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
  subjects: (facts) => facts.thingIds().filter((id) => facts.isPart(id) && facts.pose(id)),
  check(id, facts): readonly Verdict[] {
    const own = facts.solidsOf(id).filter(isBody);
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    if (!thing || !pose || own.length === 0) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    if (!facts.compartmentOf(id))
      return [
        {
          outcome: 'cannotTell',
          reason: 'nowhere',
          enterNext: `Draw the compartment that holds ${thing.name}`,
          at: pose.at,
        },
      ];
    const things = nearestThings(id, own, facts);
    const walls = wallsCut(own, facts);
    const inHull = thing.opensToSea ? null : hullCut(own, facts);
    const fails = [
      ...things.filter((meet) => meet.gapM < -CONTACT_M).map((meet) => failOf(meet, facts, id, 'overlap')),
      ...walls.map((meet) => failOf(meet, facts, id, 'throughWall')),
      ...(inHull ? [failOf(inHull, facts, id, 'outsideHull')] : []),
    ];
    if (fails.length > 0) return fails;
    const nearest = things[0];
    const grade = nearest ? [facts.gradeOf(id), facts.gradeOf(nearest.owner)] : [];
    const { met: _met, ...compared } = judge({
      value: Math.max(0, nearest?.gapM ?? LOOK_M),
      limit: 0,
      bound: 'atLeast',
      unit: 'm',
      grade,
    });
    const close = compared.closeCall && nearest;
    return [
      {
        outcome: 'pass',
        ...compared,
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
  /** Of a wall. */
  readonly wallId?: string;
}

const isBody = (solid: Solid): boolean =>
  solid.layer === 'furnishing' || solid.layer === 'sweep' || solid.layer === 'structure';

function failOf(meet: Meeting, facts: Facts, id: string, reason: string): Verdict {
  const hull = reason === 'outsideHull';
  const other = hull
    ? facts.gradeOfHull(meet.at)
    : meet.wallId
      ? facts.gradeOfWall(meet.wallId)
      : facts.gradeOf(meet.owner);
  const { met: _met, ...compared } = judge({
    value: meet.gapM,
    limit: 0,
    bound: 'atLeast',
    unit: 'm',
    grade: [facts.gradeOf(id), other],
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
      if (!known || gapM < known.gapM) worst.set(other.owner, { owner: other.owner, gapM, at });
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
        worst.set(owner, { owner, gapM: -cut.depthM, at: cut.at, wallId: wall.id });
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
      worst = { owner: 'hull', gapM: -cut.depthM, at: cut.at };
  }
  return worst;
}
