import { drawingPumps, drawnLMin } from '../../assess/water/intakes';
import { seaWay } from '../../assess/water/sea-way';
import {
  BAR_PER_METRE,
  deviceLoss,
  entranceLoss,
  hoseLosses,
  type Loss,
  suctionHead,
  turnBetween,
} from '../../assess/water/suction-loss';
import { pointInBoat, UP } from '../../base/vec';
import { LINE_KINDS } from '../../boat/catalogue/line-kinds';
import type { PortNode } from '../../runs/circuit/circuit';
import { heightAbove } from '../../shape/hull/attitude';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts, HeeledWater } from '../facts';
import { judge, times } from '../judge';
import type { Mend } from '../mend';
import { kindChanged } from '../mend-recipes';

/**
 * Pressure below that of the air which a pump without a rated lift may be left with at its inlet, bar; what the head at its inlet must exceed
 * that which it needs by, metres and as a share. The first common practice, from memory; the second quoted of pump handbooks.
 */
const LIMITS = inBoth({ suctionBar: 0.2, marginM: 0.6, marginShare: 0.1 });

/** A pump that has to draw too hard makes steam bubbles of the water and eats itself. */
export const suctionPressure = defineRule({
  id: 'water/suction-pressure',
  question: 'Do height and losses of the suction, filters dirty, leave the pump what it can draw?',
  sources: [
    { key: 'swamee-jain-1976', standing: 'quoted' },
    { key: 'practice', standing: 'commonPractice' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  limits: LIMITS,
  cannotSee: [
    'How dirty the strainer and the filters are let become.',
    'Hose that flattens in a bend, and what is left of a bore in a barb.',
    'Air in the water.',
    'Loss in a tee by what else is drawn there.',
  ],
  hazards: ['hullHole'],
  subjects: (facts) => drawingPumps(facts.circuit()),
  check(pumpId, facts): readonly Verdict[] {
    const limits = LIMITS[facts.profile()];
    const pump = facts.thing(pumpId);
    const way = seaWay(facts.circuit(), pumpId);
    if (!pump || !way) return [{ outcome: 'notApplicable', reason: 'noWayFromSea' }];
    const flowLMin = drawnLMin(facts.circuit(), pumpId);
    if (flowLMin === null || flowLMin === 0) return [{ outcome: 'notApplicable', reason: 'noFlow' }];
    const lines = way.steps.flatMap(({ edge }) => (edge.kind === 'line' ? [edge.id] : []));
    if (lines.some((id) => isUnplaced(id, facts))) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const unrun = lines.find((id) => facts.run(id)?.status !== 'routed');
    if (unrun !== undefined)
      return [{ outcome: 'cannotTell', reason: 'noRun', enterNext: 'Make room for the run first', related: [unrun] }];
    const boreless = lines.find((id) => facts.lineKind(facts.line(id)?.kind ?? '')?.boreM === undefined);
    if (boreless !== undefined)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noBore',
          enterNext: `Enter the bore of ${facts.lineKind(facts.line(boreless)?.kind ?? '')?.name ?? boreless}`,
          related: [boreless],
        },
      ];
    const losses = lossesOf(way, flowLMin, facts);
    const lift = worstLift(pumpId, way.steps.at(-1)?.to ?? { thing: pumpId, port: '' }, facts);
    if (!lift) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const lostBar = losses.reduce((sum, { dirtyBar }) => sum + dirtyBar, 0);
    const cleanBar = losses.reduce((sum, loss) => sum + loss.cleanBar, 0);
    const liftBar = lift.heightM * BAR_PER_METRE;
    const suctionBar = lostBar + liftBar;
    const grade = [...facts.gradesAlong(pumpId, UP), facts.gradeOfWater()].map((one) => times(one, BAR_PER_METRE));
    const limitBar = pump.liftM === undefined ? limits.suctionBar : pump.liftM * BAR_PER_METRE;
    const { met, ...compared } = judge({ value: suctionBar, limit: limitBar, bound: 'atMost', unit: 'bar', grade });
    const name = (id: string): string => facts.thing(id)?.name ?? facts.line(id)?.name ?? id;
    const said = {
      related: [...way.things.filter((id) => id !== pumpId), ...lines],
      at: facts.pose(pumpId)?.at ?? null,
      data: {
        flowLMin,
        lostBar,
        cleanBar,
        liftBar,
        liftM: lift.heightM,
        state: lift.state.name,
        heelDeg: lift.state.heelDeg,
        down: lift.state.down,
        trimDeg: lift.state.trimDeg,
        isRated: pump.liftM !== undefined,
        parts: partsText(losses, name),
        typical: [...new Set(losses.filter(({ isTypical }) => isTypical).map(({ id }) => name(id)))].join(', '),
      },
    };
    // Too much by figures that nobody entered is no verdict.
    const typical = losses.filter(({ isTypical }) => isTypical);
    const surelyBar = typical.reduce((sum, { dirtyBar }) => sum - dirtyBar, suctionBar);
    if (!met && surelyBar <= limitBar)
      return [
        {
          outcome: 'cannotTell',
          reason: 'lossUnknown',
          enterNext: `Enter the pressure loss of ${typical.map(({ id }) => name(id)).join(', ')}`,
          ...said,
          related: typical.map(({ id }) => id),
        },
      ];
    const head = headVerdict(pump.npshM, suctionBar, limits, grade, said);
    if (met) return [{ outcome: 'pass', ...compared, ...said }, ...head];
    return [{ outcome: 'fail', severity: 'fault', reason: 'drawsTooHard', ...compared, ...said }, ...head];
  },
  mends({ subject }, { boat, facts }): readonly Mend[] {
    const way = seaWay(facts.circuit(), subject);
    const flowLMin = drawnLMin(facts.circuit(), subject);
    if (!way || flowLMin === null) return [];
    const hoses = lossesOf(way, flowLMin, facts).filter(({ what }) => what === 'hose');
    return [...hoses]
      .sort((a, b) => b.dirtyBar - a.dirtyBar)
      .slice(0, 2)
      .flatMap(({ id }): Mend[] => {
        const from = boat.lines[id]?.kind;
        const boreM = from === undefined ? undefined : facts.lineKind(from)?.boreM;
        const wider = Object.keys(LINE_KINDS)
          .filter((kind) => LINE_KINDS[kind]?.suction && (LINE_KINDS[kind]?.boreM ?? 0) > (boreM ?? 1))
          .sort((a, b) => (LINE_KINDS[a]?.boreM ?? 0) - (LINE_KINDS[b]?.boreM ?? 0))[0];
        if (from === undefined || wider === undefined) return [];
        return [
          { id: `kind ${id}`, change: 'kind', what: { line: id, from, to: wider }, recipe: kindChanged(id, wider) },
        ];
      });
  },
});

type Way = NonNullable<ReturnType<typeof seaWay>>;

function lossesOf(way: Way, flowLMin: number, facts: Facts): readonly Loss[] {
  const losses: Loss[] = [];
  const opening = facts.thing(way.intake)?.opensToSea;
  if (opening) losses.push(entranceLoss(way.intake, opening.boreM, flowLMin));
  let boreM = opening?.boreM ?? 0;
  let inlet: PortNode | null = null;
  way.steps.forEach(({ edge, to }, i) => {
    if (edge.kind === 'line') {
      const from = i === 0 || inlet === null ? way.intake : inlet.thing;
      const leaves = edge.a.thing === to.thing && edge.a.port === to.port ? edge.b : edge.a;
      losses.push(...deviceAt(from, inlet?.port ?? null, leaves.port, flowLMin, boreM, facts));
      const run = facts.run(edge.id);
      boreM = facts.lineKind(facts.line(edge.id)?.kind ?? '')?.boreM ?? boreM;
      if (run?.status === 'routed') losses.push(...hoseLosses(edge.id, run.prims, run.lengthM, boreM, flowLMin));
      inlet = to;
    }
  });
  return losses;
}

function deviceAt(
  id: string,
  inlet: string | null,
  outlet: string,
  flowLMin: number,
  boreM: number,
  facts: Facts,
): readonly Loss[] {
  const thing = facts.thing(id);
  if (!thing) return [];
  const turn = inlet === null ? 0 : turnBetween(thing, inlet, outlet);
  const loss = deviceLoss(id, thing, flowLMin, boreM, turn);
  return loss ? [loss] : [];
}

/** The greatest height of the inlet over the water among the states in which the set runs. */
function worstLift(
  pumpId: string,
  inlet: PortNode,
  facts: Facts,
): { readonly heightM: number; readonly state: HeeledWater } | null {
  const pose = facts.pose(pumpId);
  const port = facts.thing(pumpId)?.ports[inlet.port];
  if (!pose || !port) return null;
  const at = pointInBoat(pose, port.at);
  const [first, ...rest] = facts.runningWaters().map((state) => ({ heightM: heightAbove(state.water, at), state }));
  return first ? rest.reduce((most, one) => (one.heightM > most.heightM + 1e-12 ? one : most), first) : null;
}

/** Net positive suction head, where the data sheet says what the pump needs. */
function headVerdict(
  npshM: number | undefined,
  suctionBar: number,
  limits: { readonly marginM: number; readonly marginShare: number },
  grade: readonly { readonly path: string; readonly gradeM: number }[],
  said: Pick<Verdict, 'related' | 'at' | 'data'>,
): Verdict[] {
  if (npshM === undefined) return [];
  const { met, ...compared } = judge({
    value: suctionHead(suctionBar),
    limit: npshM + Math.max(limits.marginM, limits.marginShare * npshM),
    bound: 'atLeast',
    unit: 'm',
    grade: grade.map((one) => times(one, 1 / BAR_PER_METRE)),
  });
  if (met) return [{ outcome: 'pass', instance: 'head', ...compared, ...said }];
  return [{ outcome: 'fail', severity: 'fault', reason: 'tooLittleHead', instance: 'head', ...compared, ...said }];
}

/** `Strainer 0.0150; Suction hose 0.0031 ...` in bar, the greatest first. */
function partsText(losses: readonly Loss[], name: (id: string) => string): string {
  const sums = new Map<string, number>();
  for (const { id, dirtyBar } of losses) sums.set(id, (sums.get(id) ?? 0) + dirtyBar);
  return [...sums]
    .sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))
    .map(([id, bar]) => `${name(id)} ${bar.toFixed(4)}`)
    .join('; ');
}

const isUnplaced = (lineId: string, facts: Facts): boolean => {
  const run = facts.run(lineId);
  return run === null || (run.status === 'blocked' && run.reason.kind === 'notPlaced');
};
