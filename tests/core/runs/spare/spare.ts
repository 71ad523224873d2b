import { analyze } from '@core/analyze';
import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { boatOf, judge } from '../../../oracle/judged';
import { dice } from '../../../support/dice';
import { suiteScene } from '../../../support/suite-scene';
import { primLength } from '../../../support/trace-oracle';

/** Spare lengths, metres: a reserve, a hand's breadth, an arm's length, far too much. */
const SPARE = [0.02, 0.05, 0.12, 0.3, 0.7, 1.6];

export interface SpareCount {
  readonly asked: number;
  readonly laid: number;
  readonly kinds: readonly string[];
  /** What the judge, which knows nothing of spare lengths, says of the hoses as they are laid. */
  readonly violations: readonly string[];
  /** Greatest difference between the length of a hose and that of what is laid, metres. */
  readonly worstM: number;
}

/** A scene in which every routed line is supplied too long, judged with the spare laid in. */
export function countSpare(seed: number): SpareCount {
  const drawn = boatOf(suiteScene(seed).boat);
  const boat = suppliedTooLong(drawn, seed);
  const report = analyze(boat);
  const asked = report.runs.filter((run) => run.spare && run.spare.kind !== 'none');
  const laid = asked.flatMap((run) => (run.spare && 'prims' in run.spare ? [{ run, spare: run.spare }] : []));
  const asLaid = report.runs.map((run): RunReport => {
    const { spare } = run;
    return spare && 'prims' in spare && run.lengthM !== null
      ? { ...run, prims: spare.prims, lengthM: run.lengthM + spare.excessM }
      : run;
  });
  const off = laid.map(({ run, spare }) =>
    Math.abs(
      spare.prims.reduce((sum, prim) => sum + primLength(prim), 0) - (boat.lines[run.lineId]?.supplied?.lengthM ?? 0),
    ),
  );
  return {
    asked: asked.length,
    laid: laid.length,
    kinds: laid.map(({ spare }) => spare.kind),
    violations: judge(boat, { ...report, runs: asLaid }).map(
      ({ line, kind, amount, detail }) => `${seed}/${line} ${kind} ${amount} ${detail}`,
    ),
    worstM: Math.max(0, ...off),
  };
}

function suppliedTooLong(boat: Boat, seed: number): Boat {
  const d = dice(seed * 31 + 5);
  const lengths = new Map(analyze(boat).runs.map(({ lineId, lengthM }) => [lineId, lengthM]));
  const lines = Object.entries(boat.lines).map(([id, line]) => {
    const lengthM = lengths.get(id);
    const supplied = { lengthM: Math.round(((lengthM ?? 0) + d.pick(SPARE)) * 1e6) / 1e6, spareM: 0.01, mayCut: false };
    return [id, lengthM == null ? line : { ...line, supplied }] as const;
  });
  return boatOf({ ...boat, lines: Object.fromEntries(lines) });
}
