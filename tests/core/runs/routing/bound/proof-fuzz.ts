import { viewOver, wish } from '@core/engine/run-stages';
import { sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import { lengthBound } from '@core/runs/routing/bound/bound';
import { whyImpossible } from '@core/runs/routing/bound/impossible';
import { routeLine } from '@core/runs/routing/route';
import { boatOf } from '../../../../oracle/judged';
import { scene } from '../../../../support/scenes';

export interface ProofCount {
  readonly lines: number;
  readonly blocked: number;
  readonly proved: number;
  /** Proofs against a run that was found, or that was planted. */
  readonly wrong: readonly string[];
  /** Bounds above a run that was found, or that was planted. */
  readonly above: readonly string[];
}

/** The first lines of a scene, each alone, as it is and with a stiffer and a thicker hose, so that many have no run. */
export function fuzzProofs(seed: number, planted: boolean, steps: number, most = Number.POSITIVE_INFINITY): ProofCount {
  const drawn = scene(seed, { planted });
  const boat = boatOf(drawn.boat);
  const store = new Store({ ...sourceOf(boat), wishes: 'none' as const });
  const read: Parameters<typeof viewOver>[0] = (stage, key) => store.read(stage, key);
  const view = viewOver(read, () => []);
  const count = { lines: 0, blocked: 0, proved: 0, wrong: [] as string[], above: [] as string[] };
  for (const id of Object.keys(boat.lines).slice(0, most)) {
    const asked = store.read(wish, id);
    if (asked.outcome !== 'line') continue;
    for (const [thicker, stiffer] of [
      [1, 1],
      [1, 2],
      [2, 3],
    ] as const) {
      const line = {
        ...asked.line,
        radiusM: asked.line.radiusM * thicker,
        holeRadiusM: asked.line.holeRadiusM * thicker,
        bendRadiusM: asked.line.bendRadiusM * stiffer,
      };
      const outcome = routeLine(view, line, 'fast');
      const why = whyImpossible(line, view);
      const bound = lengthBound(line, view, steps);
      const name = `${seed} ${id} x${thicker} x${stiffer}`;
      const known = thicker * stiffer === 1 ? drawn.planted[id]?.lengthM : undefined;
      count.lines += 1;
      if (outcome.status === 'blocked') count.blocked += 1;
      if (outcome.status === 'blocked' && why) count.proved += 1;
      if (why && (outcome.status === 'routed' || known !== undefined)) count.wrong.push(`${name}: ${why.blocker}`);
      const costM = outcome.status === 'routed' ? outcome.costM : Number.POSITIVE_INFINITY;
      const lengthM = outcome.status === 'routed' ? outcome.lengthM : Number.POSITIVE_INFINITY;
      if (bound.costM > costM || bound.lengthM > Math.min(lengthM, known ?? Number.POSITIVE_INFINITY))
        count.above.push(`${name}: ${bound.lengthM} ${bound.costM}, run ${lengthM} ${costM}, planted ${known}`);
    }
  }
  return count;
}
