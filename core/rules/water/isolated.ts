import { linesOpenToSea } from '../../assess/flooding/sea-path';
import { inOrder } from '../../base/order';
import { ORIGIN, pointInBoat, UP, type Vec3 } from '../../base/vec';
import type { Thing } from '../../boat/schema/boat';
import { heightAbove } from '../../shape/hull/attitude';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { fitSeacock } from '../fit-seacock';
import { judge } from '../judge';
import { endsAt, linesAt } from '../lines-at';
import { nameOf } from '../name-of';

/** Tasks for which the water side of a part is opened. */
const OPENING_TASKS: ReadonlySet<string> = new Set([
  'basket',
  'bowlDrop',
  'carbon',
  'impellerCover',
  'pumpHead',
  'elementWithdrawal',
]);
const OPENED_KINDS: ReadonlySet<string> = new Set(['strainer', 'filter']);

/** Whoever opens a strainer below the waterline with nothing to shut before it has the sea in the boat. */
export const isolated = defineRule({
  id: 'water/isolated',
  question: 'Can whatever is opened below the waterline be shut off from the sea?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'geometry', standing: 'derived' },
  ],
  gravest: 'danger',
  cannotSee: ['Whether the valve still turns, and holds.', 'Whether whoever opens it shuts the valve first.'],
  hazards: ['hullHole'],
  subjects: (facts) => facts.thingIds().filter((id) => isOpened(id, facts)),
  check(id, facts): readonly Verdict[] {
    const pose = facts.pose(id);
    const thing = facts.thing(id);
    if (!thing || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const circuit = facts.circuit();
    const reaching = circuit.seaOpenings.filter(
      (hole) =>
        hole !== id && linesOpenToSea(circuit, hole).some((lineId) => endsAt(lineId, id, facts)) && isWet(hole, facts),
    );
    const points = openedAt(thing).map((at) => pointInBoat(pose, at));
    const [first, ...rest] = facts
      .greatestHeelWaters()
      .flatMap(({ water, heelDeg, down }) =>
        points.map((at) => ({ depthM: -heightAbove(water, at), at, heelDeg, down })),
      );
    if (!first) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const deepest = rest.reduce((most, one) => (one.depthM > most.depthM + 1e-12 ? one : most), first);
    const { depthM, at, heelDeg, down } = deepest;
    const holes = reaching.map((hole) => nameOf(hole, facts)).join(', ');
    const said = { related: reaching, at, data: { depthM, heelDeg, down, holes } };
    if (reaching.length === 0) return [{ outcome: 'pass', ...countedFaults(0), ...said }];
    const { met, ...compared } = judge({
      value: depthM,
      limit: 0,
      bound: 'atMost',
      unit: 'm',
      grade: [...facts.gradesAlong(id, UP), facts.gradeOfWater()],
    });
    if (met) return [{ outcome: 'pass', ...compared, ...said }];
    return [{ outcome: 'fail', severity: 'danger', reason: 'openToSea', ...compared, ...said }];
  },
  mends: (finding) => finding.related.flatMap((hole) => fitSeacock({ ...finding, subject: hole })),
});

/**
 * Local points from which the sea runs out when it is opened: the lid of a strainer, the joints of anything else. Sorted: of two that lie
 * equally deep the same one counts, however the records stand.
 */
function openedAt(thing: Thing): readonly Vec3[] {
  const lids = inOrder(thing.services).filter(([, { task }]) => task === 'basket' || task === 'lid');
  if (lids.length > 0) return lids.map(([, { at }]) => at);
  const joints = inOrder(thing.ports).filter(([, { medium }]) => medium === undefined || WET.has(medium));
  return joints.length > 0 ? joints.map(([, { at }]) => at) : [ORIGIN];
}

const WET: ReadonlySet<string> = new Set(['seaWater', 'brine', 'waste']);

/** Whether the hole in the hull is under water at the greatest heel, whichever side goes down. */
function isWet(hole: string, facts: Facts): boolean {
  const opening = facts.thing(hole)?.opensToSea;
  const pose = facts.pose(hole);
  if (!opening || !pose) return false;
  const at = pointInBoat(pose, opening.at);
  return facts.greatestHeelWaters().some(({ water }) => heightAbove(water, at) < 0);
}

/** What is opened for service and has sea water in it. */
function isOpened(id: string, facts: Facts): boolean {
  const thing = facts.thing(id);
  if (!thing || thing.opensToSea) return false;
  const opens =
    OPENED_KINDS.has(thing.kind) || Object.values(thing.services).some(({ task }) => OPENING_TASKS.has(task));
  return (
    opens &&
    linesAt(id, facts).some((lineId) => {
      const medium = facts.line(lineId)?.medium;
      return medium === 'seaWater' || medium === 'brine';
    })
  );
}
