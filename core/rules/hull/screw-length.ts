import * as portable from '../../base/portable';
import { along, scale, unit, type Vec3 } from '../../base/vec';
import { freeDepth } from '../../shape/space/free-depth';
import { runSolidsIn } from '../along-run';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import type { Hazard } from '../hazard';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';
import { type Mounted, mountingOf, surfaceUnder } from '../mounted';

/** Lengths in which screws are sold, metres, and the room that is left before their points. Common practice, from memory. */
const SOLD_M = [0.05, 0.045, 0.04, 0.035, 0.03, 0.025, 0.02, 0.016, 0.012] as const;
const KEPT_M = 0.002;
/** Behind a surface it is looked no further. */
const LOOK_M = 0.2;

const TANKS: ReadonlySet<string> = new Set(['waterTank', 'fuelTank', 'holdingTank', 'waterHeater']);

/** A screw that is ten millimetres too long is a hole in a tank, a loom or the boat. */
export const screwLength = defineRule({
  id: 'hull/screw-length',
  question: 'Do screws end before they reach the hull, a tank or a loom?',
  gravest: 'danger',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  cannotSee: [
    'Where on its foot the part is screwed: all that lies behind its face counts.',
    'Pipes and wires behind the face that are not drawn.',
    'Washers and packing, unless they are in the thickness of the foot.',
  ],
  hazards: ['hullHole', 'dcFault', 'ignition'],
  subjects: (facts) => facts.thingIds().filter((id) => facts.isPart(id) && mountingOf(id, facts)?.screwM !== undefined),
  check(id, facts): readonly Verdict[] {
    const { screwM = 0, footM = 0 } = mountingOf(id, facts) ?? {};
    if (!facts.pose(id)) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const mounted = surfaceUnder(id, facts);
    if (!mounted) return [{ outcome: 'notApplicable', reason: 'noSurface' }];
    const { surface, seat } = mounted;
    // what comes out at the back
    const outM = screwM - footM - surface.thicknessM;
    const behind = outM > 0 ? nearestBehind(mounted, facts) : declaredBehind(mounted);
    const data = {
      surface: mounted.id,
      screwM,
      footM,
      thicknessM: surface.thicknessM,
      blocker: behind?.blocker ?? null,
    };
    const related = [mounted.id, ...(behind?.blocker && behind.blocker !== 'hull' ? [behind.blocker] : [])];
    if (!behind && outM > 0 && surface.behind === 'unknown')
      return [
        {
          outcome: 'cannotTell',
          reason: 'behindUnknown',
          enterNext: `Look behind ${surface.name ?? mounted.id}, and enter what is there and how deep it is free`,
          related,
          at: seat.at,
          data: { ...data, outM },
        },
      ];
    const freeM = behind?.freeM ?? Math.max(0, outM);
    const { met, ...compared } = judge({
      value: outM,
      limit: freeM,
      bound: 'atMost',
      unit: 'm',
      grade: outM > 0 && behind ? gradesBehind(behind, mounted, facts) : [],
    });
    const said = { ...compared, related, at: seat.at, data };
    if (met || !behind) return [{ outcome: 'pass', ...said }];
    const isFuel = behind.blocker !== null && facts.thing(behind.blocker)?.kind === 'fuelTank';
    const hazards = isFuel ? FUEL : HAZARDS[behind.what];
    switch (behind.what) {
      case 'hull':
        return [{ outcome: 'fail', severity: 'danger', reason: 'reachesHull', ...said, hazards }];
      case 'tank':
        return [{ outcome: 'fail', severity: 'danger', reason: 'reachesTank', ...said, hazards }];
      case 'loom':
        return [{ outcome: 'fail', severity: 'danger', reason: 'reachesLoom', ...said, hazards }];
      case 'thing':
        return [{ outcome: 'fail', severity: 'fault', reason: 'reachesThing', ...said, hazards }];
      case 'air':
        return [{ outcome: 'fail', severity: 'fault', reason: 'reachesBeyond', ...said, hazards }];
    }
  },
  mends: shorterScrews,
});

type What = 'hull' | 'tank' | 'loom' | 'thing' | 'air';

const HAZARDS: Readonly<Record<What, readonly Hazard[]>> = {
  hull: ['hullHole'],
  tank: [],
  loom: ['dcFault'],
  thing: [],
  air: [],
};

const FUEL: readonly Hazard[] = ['ignition'];

interface Behind {
  readonly freeM: number;
  readonly what: What;
  /** Id of what is drawn there; null where it is only said. */
  readonly blocker: string | null;
}

/** How well the place of what is drawn behind is known; what is only said is taken as it is. */
function gradesBehind({ blocker }: Behind, { surface, seat }: Mounted, facts: Facts): readonly GradeShare[] {
  if (blocker === null || facts.line(blocker)) return [];
  return blocker === 'hull' ? [facts.gradeOfHull(seat.at)] : facts.gradesAlong(blocker, unit(surface.normal));
}

/** What is said to be behind: right behind where no depth is given, but for air. */
function declaredBehind({ surface: { behind, behindM } }: Mounted): Behind | null {
  if (behind === 'hull' || behind === 'tank' || behind === 'loom')
    return { freeM: behindM ?? 0, what: behind, blocker: null };
  return behind === 'air' && behindM !== undefined ? { freeM: behindM, what: 'air', blocker: null } : null;
}

/**
 * The nearer of what is said and what is drawn. Where a depth is said somebody has looked, and the drawing is the coarser of the two:
 * then only what the plan itself puts there counts besides.
 */
function nearestBehind(mounted: Mounted, facts: Facts): Behind | null {
  const said = declaredBehind(mounted);
  const drawn = drawnBehind(mounted, said !== null, facts);
  return said && (!drawn || said.freeM <= drawn.freeM) ? said : drawn;
}

/** How far the face of the part, pushed back through the surface, goes before it meets something drawn. */
function drawnBehind({ surface, seat }: Mounted, isPlanAlone: boolean, facts: Facts): Behind | null {
  const inward = scale(unit(surface.normal), -1);
  const at = along(seat.at, inward, seat.gapM + surface.thicknessM);
  const reach = portable.hypot(...seat.halfM);
  const end = along(at, inward, LOOK_M);
  const bound = (pick: (a: number, b: number) => number, by: number): Vec3 => [
    pick(at[0], end[0]) + by,
    pick(at[1], end[1]) + by,
    pick(at[2], end[2]) + by,
  ];
  const [low, high] = [bound(Math.min, -reach), bound(Math.max, reach)];
  const furnishing = facts
    .solidsIn(low, high)
    .filter(({ layer, owner }) => layer === 'furnishing' && (!isPlanAlone || facts.isPart(owner)));
  const solids = [...furnishing, ...runSolidsIn(low, high, facts)];
  const layout = facts.layout();
  const { freeM, blocker } = freeDepth(
    {
      at,
      direction: inward,
      across: seat.across,
      sizeM: [2 * seat.halfM[0], 2 * seat.halfM[1]],
      round: false,
    },
    LOOK_M,
    {
      layout,
      hull: isPlanAlone ? null : facts.hull(),
      solids,
      withoutWalls: new Set(layout.walls.map(({ id }) => id)),
    },
  );
  if (!blocker) return null;
  if (blocker.layer === 'hull') return { freeM, what: 'hull', blocker: 'hull' };
  if (blocker.layer === 'run') return { freeM, what: 'loom', blocker: blocker.owner };
  const kind = facts.thing(blocker.owner)?.kind ?? 'other';
  return { freeM, what: TANKS.has(kind) ? 'tank' : 'thing', blocker: blocker.owner };
}

/** The longest screw that is sold and stays short of what is behind. */
function shorterScrews({ subject, limit, data }: FailedFinding, { facts }: MendingAt): readonly Mend[] {
  const { screwM = 0, footM = 0 } = mountingOf(subject, facts) ?? {};
  const mostM = footM + Number(data.thicknessM) + limit.value - KEPT_M;
  const to = SOLD_M.find((length) => length <= mostM && length > footM);
  if (to === undefined) return [];
  return [
    {
      id: `screws ${subject}`,
      change: 'value',
      what: { id: subject, field: 'mounting.screwM', from: screwM, to },
      recipe: (boat) => {
        const fixed = boat.parts[subject]?.mounting;
        if (fixed) fixed.screwM = to;
      },
    },
  ];
}
