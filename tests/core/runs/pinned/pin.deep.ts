import { analyze } from '@core/analyze';
import { distance } from '@core/base/vec';
import { currentArrangementId, edit } from '@core/boat/edits';
import { runPinned } from '@core/boat/pins';
import { pinOf } from '@core/runs/pinned/pin';
import { describe, expect, it } from 'vitest';
import { boatOf, judge } from '../../../oracle/judged';
import { suiteScene } from '../../../support/suite-scene';
import { primLength } from '../../../support/trace-oracle';

/** Scenes by their seeds: PIN_SEED is the first, PIN_SCENES how many. */
const FIRST = Number(process.env.PIN_SEED ?? 900);
const SCENES = Number(process.env.PIN_SCENES ?? 25);

describe('runs of scenes, all pinned', () => {
  it('are the same runs, keep all limits as an independent judge sees them, and are found to fit', () => {
    const off: number[] = [];
    const wrong: string[] = [];
    for (let seed = FIRST; seed < FIRST + SCENES; seed++) {
      const boat = boatOf(suiteScene(seed).boat);
      const before = analyze(boat);
      const routed = before.runs.filter(({ status }) => status === 'routed');
      const made = edit(boat, (draft) => {
        for (const { lineId, prims } of routed)
          runPinned(currentArrangementId(boat) ?? '', lineId, pinOf(prims))(draft);
      });
      if (!made.ok) throw new Error(made.problems[0]?.message ?? '');
      const after = analyze(made.boat);
      for (const { lineId, prims } of routed) {
        const again = after.runs.find((run) => run.lineId === lineId);
        // A straight of some micrometres between two bends may come or go by rounding.
        const [own, now] = [prims, again?.prims ?? []].map((all) => all.filter((prim) => primLength(prim) > 1e-4));
        if (own?.length !== now?.length) wrong.push(`${seed}/${lineId}: ${now?.length} pieces for ${own?.length}`);
        else for (const [k, prim] of (own ?? []).entries()) off.push(distance(prim.to, now?.[k]?.to ?? [0, 0, 0]));
      }
      for (const finding of after.findings)
        if (finding.rule === 'runs/pinned' && finding.outcome !== 'pass') wrong.push(`${seed} ${finding.key}`);
      const pinned = after.runs.filter((run) => run.pinned);
      for (const { line, kind, amount } of judge(made.boat, { ...after, runs: pinned }))
        if (amount > 5e-6) wrong.push(`${seed}/${line} ${kind} ${amount}`);
    }
    off.sort((a, b) => a - b);
    const at = (share: number) => ((off[Math.floor(share * (off.length - 1))] ?? 0) * 1e6).toFixed(2);
    process.stdout.write(`pins: ${off.length} pieces, off by um p50 ${at(0.5)}, p99 ${at(0.99)}, worst ${at(1)}\n`);
    expect(wrong).toEqual([]);
    expect(off[Math.floor(0.99 * off.length)]).toBeLessThan(2e-6);
  });
});
