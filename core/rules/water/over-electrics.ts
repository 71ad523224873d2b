import { ALIKE, leastBy } from '../../base/order';
import type { Vec3 } from '../../base/vec';
import { asideOf } from '../../runs/routing/wishes/prices';
import type { WishZone } from '../../runs/routing/wishes/zones';
import { directionTo, pointsAlong, radiusOf, runOrNone } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

/** Drips fall straight, but for a little spread. Runs are led 300 mm aside where they can be. Common practice, no source. */
const LIMITS = inBoth({ asideM: 0.1 });

/** A joint or a chafed hose drips straight down: salt water on open terminals is heat, then fire. */
export const overElectrics = defineRule({
  id: 'water/over-electrics',
  question: 'Does water keep away from electrics that are open to drips?',
  sources: [
    { key: 'iso-10133', clause: '5.1', standing: 'quoted' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Steps, lids and trays that turn drips aside.',
    'Spray from a hose under pressure.',
    'Drips when the boat heels.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => facts.lineIds().filter((id) => facts.wishesOf(id)?.carries === 'water'),
  check(lineId, facts): readonly Verdict[] {
    const { asideM: limitM } = LIMITS[facts.profile()];
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const own = facts.wishesOf(lineId)?.ownThings ?? [];
    const zones = facts.zonesAlong(lineId).filter(({ kind, owner }) => kind === 'electrics' && !own.includes(owner));
    const passed = zones.flatMap((zone) => nearest(zone, lineId, facts) ?? []);
    if (passed.length === 0) return [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const sure = passed.filter(({ zone }) => zone.isKnown);
    const unsure = passed.filter(({ zone, asideM }) => !zone.isKnown && asideM < limitM);
    const verdicts = unsure.map(
      ({ zone, at }): Verdict => ({
        outcome: 'cannotTell',
        reason: 'drips',
        instance: zone.owner,
        enterNext: `Enter how well ${zone.label} stands water from above`,
        related: [zone.owner],
        at,
      }),
    );
    const worst = sure[0] ? leastBy(sure[0], sure, ({ asideM }) => asideM) : null;
    if (!worst) return verdicts.length > 0 ? verdicts : [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const { zone, asideM, at } = worst;
    const { met, ...compared } = withRunDoubt(
      judge({
        value: asideM,
        limit: limitM,
        bound: 'atLeast',
        unit: 'm',
        grade: facts.gradesAlong(zone.owner, directionTo(middleOf(zone, at), at)),
      }),
      lineId,
      facts,
    );
    const said = { ...compared, related: [zone.owner], at, data: { electrics: zone.label, asideM } };
    if (met) return [{ outcome: 'pass', ...said }, ...verdicts];
    return [
      {
        outcome: 'fail',
        severity: asideM <= 0 ? 'danger' : 'fault',
        reason: asideM <= 0 ? 'above' : 'beside',
        ...said,
      },
      ...verdicts,
    ];
  },
});

interface Passed {
  readonly zone: WishZone;
  /** Level distance from the hose to the electrics, 0 above them. */
  readonly asideM: number;
  readonly at: Vec3;
}

/** Where a run comes nearest to standing over electrics; null where it stays below them or in other compartments. */
function nearest(zone: WishZone, lineId: string, facts: Facts): Passed | null {
  const run = facts.run(lineId);
  if (run?.status !== 'routed') return null;
  const layout = facts.layout();
  const radiusM = radiusOf(lineId, facts);
  let least: Passed | null = null;
  for (const { at } of pointsAlong(run.prims)) {
    if (at[2] + radiusM < zone.low[2]) continue;
    const cell = layout.cellAt(at);
    if (cell === null || !zone.cells.includes(cell)) continue;
    const asideM = Math.max(0, asideOf(zone, at[0], at[1]) - radiusM);
    if (!least || asideM < least.asideM - ALIKE) least = { zone, asideM, at };
  }
  return least;
}

/** The middle of the electrics, at the height of the hose. */
const middleOf = ({ low, high }: WishZone, at: Vec3): Vec3 => [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, at[2]];
