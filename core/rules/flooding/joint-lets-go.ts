import type { FloodElectric, FloodJoint, FloodOutcome } from '../../assess/flooding/flood';
import { inOrder } from '../../base/order';
import { UP } from '../../base/vec';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { fitSeacock } from '../fit-seacock';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';
import { nameOf } from '../name-of';

/** A hose that slips off below the water lets the sea in until it stands inside as high as outside: what then stands under water? */
export const jointLetsGo = defineRule({
  id: 'flooding/joint-lets-go',
  question: 'When a joint below the waterline lets go and no pump runs, do electrics stay dry, and what stops the sea?',
  gravest: 'danger',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'practice', standing: 'commonPractice' },
    { key: 'orifice-tables', standing: 'quoted' },
  ],
  cannotSee: [
    'Panels that leak at their edges, and holes that are not drawn.',
    'Heel and trim that the water itself brings.',
    'Whether somebody is there and finds the seacock in time.',
    'Undrawn space that fills on the way.',
  ],
  hazards: ['hullHole', 'dcFault'],
  // one finding for a through-hull: whatever joint behind it lets go, the same valve stops the same sea
  subjects: (facts) => facts.thingIds().filter((id) => facts.thing(id)?.opensToSea),
  check(throughHull, facts): readonly Verdict[] {
    if (!facts.pose(throughHull)) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const cases = inOrder(facts.flooding()?.cases ?? {}).filter(
      ([, one]) => one.kind === 'joint' && one.limbersBlocked,
    );
    return [
      verdictOf(facts.floods(throughHull, 'clear'), facts),
      ...cases.flatMap(([instance, { subject }]): readonly Verdict[] => {
        const floods = facts.floods(throughHull, 'blocked').filter((flood) => isAbout(subject, flood));
        return floods.length > 0 ? [{ ...verdictOf(floods, facts), instance }] : [];
      }),
    ];
  },
  mends: (finding, at): readonly Mend[] =>
    finding.reason === 'cannotBeShut' ? fitSeacock(finding) : sealTheWay(finding, at),
});

const isAbout = (subject: string | undefined, { throughHull, joints }: FloodOutcome): boolean =>
  subject === undefined ||
  subject === throughHull ||
  joints.some(({ line, thing }) => line === subject || thing === subject);

function verdictOf(floods: readonly FloodOutcome[], facts: Facts): Verdict {
  const placed = floods.filter(({ compartment }) => compartment !== '');
  const [any] = floods;
  if (!any) return { outcome: 'notApplicable', reason: 'noJointUnderWater' };
  if (placed.length === 0) {
    const [{ thing, at } = { thing: '', at: null }] = any.joints;
    const enterNext = `Draw the compartment that holds ${nameOf(thing, facts)}`;
    return { outcome: 'cannotTell', reason: 'nowhere', enterNext, related: [thing], at };
  }
  const open = placed.filter(({ joints }) => joints.some(({ isOpen }) => isOpen));
  const worst = worstOf(open.length > 0 ? open : placed);
  const joints = placed.flatMap((flood) => flood.joints);
  const under = worst.electrics.filter(({ heightM }) => heightM < 0);
  const said = { related: relatedTo(placed, under), data: dataOf(placed, worst, under, facts) };
  if (open.length === 0) {
    // as it normally stands, none of them holds back the sea
    const none = { value: 0, unit: 'count' as const };
    return {
      outcome: 'pass',
      measured: none,
      limit: { ...none, bound: 'atMost' },
      ...said,
      at: worst.joints[0]?.at ?? null,
    };
  }
  const unstopped = joints.filter(({ stoppedBy }) => stoppedBy === null);
  const [lowest] = worst.electrics;
  const height = lowest
    ? judge({
        value: lowest.heightM,
        limit: 0,
        bound: 'atLeast',
        unit: 'm',
        grade: [facts.gradeOfWater(), ...facts.gradesAlong(lowest.thing, UP)],
      })
    : null;
  const at = fastestOf(worst.joints).at;
  if (height && !height.met) {
    const { met: _, ...compared } = height;
    return { outcome: 'fail', severity: 'danger', reason: 'drowns', ...compared, ...said, at };
  }
  if (unstopped.length > 0) {
    const deepest = unstopped.reduce((most, one) => (one.depthM > most.depthM ? one : most));
    const { met: _, ...compared } = judge({
      value: deepest.depthM,
      limit: 0,
      bound: 'atMost',
      unit: 'm',
      grade: [facts.gradeOfWater(), ...facts.gradesAlong(deepest.thing, UP)],
    });
    return { outcome: 'fail', severity: 'danger', reason: 'cannotBeShut', ...compared, ...said, at: deepest.at };
  }
  if (!height) return { outcome: 'notApplicable', reason: 'noElectricsThere', ...said, at };
  const { met: _, ...compared } = height;
  return { outcome: 'pass', ...compared, ...said, at };
}

/** What happens upright counts before what happens at heel, unless electrics go under at heel alone. */
function worstOf(floods: readonly FloodOutcome[]): FloodOutcome {
  const [upright, heeled] = [true, false].map((isUpright) =>
    deepestOf(floods.filter(({ down }) => (down === 'upright') === isUpright)),
  );
  const worst = upright && (lowestOf(upright) < 0 || !heeled || lowestOf(heeled) >= 0) ? upright : heeled;
  if (!worst) throw new Error('worstOf: expected a flood, got none');
  return worst;
}

/** That which leaves its lowest electrics deepest; of equals the fastest. */
const deepestOf = (floods: readonly FloodOutcome[]): FloodOutcome | null =>
  floods.reduce<FloodOutcome | null>((worst, one) => {
    const by = worst ? lowestOf(worst) - lowestOf(one) : 1;
    const isFaster = worst !== null && fastestOf(one.joints).flowLMin > fastestOf(worst.joints).flowLMin;
    return by > 0 || (by === 0 && isFaster) ? one : worst;
  }, null);

const lowestOf = ({ electrics }: FloodOutcome): number => electrics[0]?.heightM ?? Number.MAX_VALUE;

const fastestOf = (joints: readonly FloodJoint[]): FloodJoint =>
  joints.reduce((most, one) => (one.flowLMin > most.flowLMin ? one : most));

/** What it is about: electrics under water first, then what lets go, what stops it and where the water goes. */
function relatedTo(floods: readonly FloodOutcome[], under: readonly FloodElectric[]): readonly string[] {
  const joints = floods.flatMap((flood) => flood.joints);
  const all = [
    ...under.map(({ thing }) => thing),
    ...joints.flatMap(({ line, thing }) => [line, thing]),
    ...joints.flatMap(({ stoppedBy }) => stoppedBy ?? []),
    ...floods.map(({ compartment }) => compartment),
  ];
  return [...new Set(all)];
}

const ids = (of: readonly string[]): string => [...new Set(of)].sort().join(' ');

function dataOf(
  floods: readonly FloodOutcome[],
  worst: FloodOutcome,
  under: readonly FloodElectric[],
  facts: Facts,
): NonNullable<Verdict['data']> {
  const joints = floods.flatMap((flood) => flood.joints);
  const stops = joints.flatMap(({ stoppedBy }) => stoppedBy ?? []);
  const fastest = fastestOf(worst.joints);
  return {
    joints: joints.length,
    lines: ids(joints.map(({ line }) => line)),
    jointsIn: ids(floods.map(({ compartment }) => compartment)),
    compartment: worst.compartment,
    floods: worst.reached.map(({ compartment }) => compartment).join(' '),
    electrics: under.map(({ thing }) => thing).join(' '),
    underM: under.map(({ heightM }) => (-heightM).toFixed(4)).join(' '),
    lowest: worst.electrics[0]?.thing ?? '',
    stops: ids(stops),
    stopsIn: ids(stops.flatMap((id) => facts.compartmentOf(id) ?? [])),
    unstopped: joints.filter(({ stoppedBy }) => stoppedBy === null).length,
    isOpen: joints.some((joint) => joint.isOpen),
    flowLMin: fastest.flowLMin,
    cd: fastest.cd,
    band: worst.band,
    sinkageM: worst.sinkageM,
    founders: worst.founders,
    down: worst.down,
    heelDeg: worst.heelDeg,
    alsoHeeled: floods.some(({ down }) => down !== worst.down),
  };
}

/** Holes on the way of the water to the electrics that it drowns may be sealed round what passes them. */
function sealTheWay({ subject, data }: FailedFinding, { facts, arrangementId }: MendingAt): readonly Mend[] {
  const flood = facts.floods(subject, 'clear').find(({ compartment }) => compartment === data.compartment);
  if (!flood) return [];
  const { panels } = facts.layout();
  const mends = new Map<string, Mend>();
  for (const electric of flood.electrics.filter(({ heightM }) => heightM < 0)) {
    for (
      let at = flood.reached.find((one) => one.compartment === electric.compartment);
      at && at.through !== null;
      at = flood.reached.find((one) => one.compartment === at?.from)
    ) {
      const [panelId = '', holeId = ''] = at.through.split('/');
      const panel = panels[panelId];
      const hole = panel?.holes.find(({ id }) => id === holeId);
      if (!panel || !hole) continue;
      const { dataId } = panel;
      mends.set(at.through, {
        id: `seal/${at.through}`,
        change: 'add',
        what: { item: 'seal', to: panelId },
        recipe: (boat) => {
          const planned =
            hole.newHoleId === undefined ? undefined : boat.arrangements[arrangementId]?.newHoles[hole.newHoleId];
          const existing = dataId === undefined ? undefined : boat.panels[dataId]?.holes[holeId];
          const sealed = planned ?? existing;
          if (sealed) sealed.sealed = true;
        },
      });
    }
  }
  return [...mends.values()];
}
