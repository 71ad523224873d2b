import { analyze } from '@core/analyze';
import { applied } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { Alternative } from '@core/runs/alternative';
import type { Prim } from '@core/runs/routing/types';
import { gap, type P3 } from '../../../support/geometry-oracle';
import { pointAt, primLength } from '../../../support/trace-oracle';

const STEP_M = 0.02;

function places(prims: readonly Prim[]): readonly P3[] {
  return prims.flatMap((prim) => {
    const lengthM = primLength(prim);
    const parts = Math.max(1, Math.ceil(lengthM / STEP_M));
    return Array.from({ length: parts + 1 }, (_, k) => pointAt(prim, (lengthM * k) / parts));
  });
}

/** How far the farthest place of either run is from the other, to a sample. */
export function apartM(a: readonly Prim[], b: readonly Prim[]): number {
  const [p, q] = [places(a), places(b)];
  const oneWay = (from: readonly P3[], to: readonly P3[]) =>
    Math.max(...from.map((one) => Math.min(...to.map((other) => gap(one, other)))));
  return Math.max(oneWay(p, q), oneWay(q, p));
}

/** What is wrong with alternatives of a line: those that lie on each other, those that the edit does not bring about. */
export function broken(boat: Boat, lineId: string, found: readonly Alternative[]): readonly string[] {
  const wrong: string[] = [];
  const before = analyze(boat);
  for (const [k, one] of found.entries()) {
    for (const other of found.slice(0, k)) {
      const isSameHoles =
        one.holes.map(({ panelId }) => panelId).join() === other.holes.map(({ panelId }) => panelId).join();
      if (isSameHoles && apartM(one.prims, other.prims) < 0.1) wrong.push(`${one.id} lies on ${other.id}`);
    }
    if (one.isCurrent) {
      if (one.patches.length > 0) wrong.push('the present run asks for an edit');
      continue;
    }
    const edited = checkBoat(applied(boat, one.patches));
    if (!edited.ok) {
      wrong.push(`${one.id}: ${edited.problems[0]?.message}`);
      continue;
    }
    const after = analyze(edited.boat);
    const run = after.runs.find((own) => own.lineId === lineId);
    if (run?.status !== 'routed') wrong.push(`${one.id}: no run comes of it`);
    else if (apartM(run.prims, one.prims) > 1e-6) wrong.push(`${one.id}: another run comes of it`);
    const lost = before.runs.filter(
      (own) =>
        own.status === 'routed' && after.runs.some((now) => now.lineId === own.lineId && now.status === 'blocked'),
    );
    if (lost.length > 0 && after.summary.routed < before.summary.routed)
      wrong.push(`${one.id}: ${lost.map((own) => own.lineId).join(', ')} lost`);
  }
  const costs = found.map(({ costM }) => costM);
  if (costs.some((cost, k) => k > 0 && cost < (costs[k - 1] as number))) wrong.push('not the cheapest first');
  return wrong;
}
