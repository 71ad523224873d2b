import { distance, subtract, unit, type Vec3 } from '../base/vec';
import type { LineKind } from '../boat/schema/boat';
import { placesOn, primLength } from '../runs/routing/prims';
import type { Prim, Routed, RunOutcome } from '../runs/routing/types';
import type { CapsuleSolid } from '../shape/space/solids';
import type { Verdict } from './define';
import type { Facts } from './facts';

/** Runs are looked at this often, metres. */
export const STEP_M = 0.01;

export interface RunPoint {
  readonly at: Vec3;
  /** From the first port, metres. */
  readonly alongM: number;
  /** Length that it stands for. */
  readonly stepM: number;
}

/** Points along the centre line, each in the middle of a piece of at most 10 mm. */
export function pointsAlong(prims: readonly Prim[]): readonly RunPoint[] {
  const points: RunPoint[] = [];
  let startM = 0;
  for (const prim of prims) {
    const length = primLength(prim);
    const count = Math.max(1, Math.ceil(length / STEP_M));
    const placeAt = placesOn(prim);
    for (let k = 0; k < count; k += 1) {
      const share = (k + 0.5) / count;
      points.push({ at: placeAt(share), alongM: startM + length * share, stepM: length / count });
    }
    startM += length;
  }
  return points;
}

/**
 * The run of a line, or what a rule says where there is none. That the line is blocked is a finding of its own: what only asks how
 * a run lies does not apply to it.
 */
export function runOrNone(lineId: string, facts: Facts): Routed | Verdict {
  const run = facts.run(lineId);
  if (run?.status === 'routed') return run;
  return { outcome: 'notApplicable', reason: isPlaced(run) ? 'noRun' : 'notPlaced' };
}

/** The same for what the owner asked of a line: without a run nobody can tell. */
export function runOrUnknown(lineId: string, facts: Facts): Routed | Verdict {
  const run = facts.run(lineId);
  if (run?.status === 'routed') return run;
  if (!isPlaced(run)) return { outcome: 'notApplicable', reason: 'notPlaced' };
  return { outcome: 'cannotTell', reason: 'noRun', enterNext: 'Make room for the run first' };
}

const isPlaced = (run: RunOutcome | null): boolean => run?.status === 'blocked' && run.reason.kind !== 'notPlaced';

/** Runs that pass a box, as pieces along their centre lines, each owned by its line. */
export function runSolidsIn(low: Vec3, high: Vec3, facts: Facts): readonly CapsuleSolid[] {
  const grown = (p: Vec3, by: number): Vec3 => [p[0] + by, p[1] + by, p[2] + by];
  return facts.runsIn(grown(low, -STEP_M), grown(high, STEP_M)).flatMap((lineId) => {
    const run = facts.run(lineId);
    if (run?.status !== 'routed') return [];
    const radius = radiusOf(lineId, facts);
    const isNear = ({ at }: RunPoint): boolean =>
      at.every((value, k) => value > (low[k] ?? 0) - radius - STEP_M && value < (high[k] ?? 0) + radius + STEP_M);
    const points = pointsAlong(run.prims);
    return points.flatMap((point, k): CapsuleSolid[] => {
      const next = points[k + 1];
      if (!next || !isNear(point)) return [];
      const id = `${lineId}/${String(k).padStart(4, '0')}`;
      const label = facts.line(lineId)?.name ?? lineId;
      return [{ type: 'capsule', id, owner: lineId, label, layer: 'run', from: point.at, to: next.at, radius }];
    });
  });
}

/** From one place to another; along the boat where they are the same. */
export const directionTo = (from: Vec3, to: Vec3): Vec3 =>
  distance(from, to) < 1e-9 ? [1, 0, 0] : unit(subtract(to, from));

/** Hose, tube or cable of a line, of the boat or of the catalogue. */
export function kindOfLine(lineId: string, facts: Facts): LineKind | null {
  const line = facts.line(lineId);
  return line && facts.lineKind(line.kind);
}

/** What stands more than this is the pressure side of a set, bar. Nothing else aboard comes near it. */
const HIGH_BAR = 40;

/** A hose of the pressure side: sea water on its way to the membrane, or brine behind it. */
export function isPressureLine(lineId: string, facts: Facts): boolean {
  const medium = facts.line(lineId)?.medium;
  return (medium === 'seaWater' || medium === 'brine') && (kindOfLine(lineId, facts)?.pressureBar ?? 0) >= HIGH_BAR;
}

/** Half the outside diameter of a line, metres. */
export const radiusOf = (lineId: string, facts: Facts): number => (kindOfLine(lineId, facts)?.outsideM ?? 0) / 2;
