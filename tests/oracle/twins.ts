import { analyze } from '@core/analyze';
import type { RunReport } from '@core/engine/report';
import { mirrored, otherWayRound, renamed, shifted, turnedRound } from '../support/boat-twins';
import type { BoatDraft } from '../support/scene-interior';
import { boatOf } from './judged';

/** A line and its twin: what they cost, null where there is no run. */
export interface Pair {
  readonly twin: string;
  readonly line: string;
  readonly cost: number | null;
  readonly twinCost: number | null;
}

const TWINS: Readonly<Record<string, { readonly of: (boat: BoatDraft) => BoatDraft; readonly renames?: true }>> = {
  mirrored: { of: mirrored },
  shifted: { of: (boat) => shifted(boat, 2.137) },
  turnedRound: { of: turnedRound },
  renamed: { of: renamed, renames: true },
};

const costOf = (run: RunReport | undefined): number | null => (run?.status === 'routed' ? (run.costM ?? null) : null);

/** All lines of a boat beside those of its twins, after the deep search. */
export function twinPairs(boat: BoatDraft): Pair[] {
  const runs = analyze(boatOf(boat), { effort: 'deep' }).runs;
  return Object.entries(TWINS).flatMap(([twin, { of, renames }]) => {
    const others = analyze(boatOf(of(boat)), { effort: 'deep' }).runs;
    const name = renames ? otherWayRound(Object.keys(boat.lines ?? {})) : (id: string) => id;
    return runs.map(({ lineId }, k) => ({
      twin,
      line: lineId,
      cost: costOf(runs[k]),
      twinCost: costOf(others.find((one) => one.lineId === name(lineId))),
    }));
  });
}

/** One line of the boat and nothing else that runs. */
export const alone = (boat: BoatDraft, line: string): BoatDraft => {
  const only = boat.lines?.[line];
  if (!only) throw new Error(`alone: expected a line ${line}`);
  const arrangements = Object.fromEntries(
    Object.entries(boat.arrangements ?? {}).map(([id, plan]) => {
      const clips = plan.clipPoints?.[line];
      return [id, { ...plan, clipPoints: clips ? { [line]: clips } : {} }];
    }),
  );
  return { ...boat, lines: { [line]: only }, arrangements };
};

const plainCost = (boat: BoatDraft): number | null =>
  costOf(analyze(boatOf(boat), { effort: 'deep', wishes: 'none' }).runs[0]);

/** Each line alone beside the same with every `every`th obstacle gone, and beside a hose that bends a sixth less tightly. */
export function easedPairs(boat: BoatDraft, every: number): Pair[] {
  const obstacles = Object.keys(boat.fixtures ?? {}).filter((id) => id.startsWith('x'));
  const gone = new Set(obstacles.filter((_, k) => k % every === 0));
  const fewer = Object.fromEntries(Object.entries(boat.fixtures ?? {}).filter(([id]) => !gone.has(id)));
  const stiffer = Object.fromEntries(
    Object.entries(boat.lineKinds ?? {}).map(([id, kind]) => [
      id,
      { ...kind, bendRadiusM: kind.bendRadiusM * (7 / 6) },
    ]),
  );
  return Object.keys(boat.lines ?? {}).flatMap((line) => {
    const single = alone(boat, line);
    const cost = plainCost(single);
    return [
      { twin: 'obstacles gone', line, cost, twinCost: plainCost({ ...single, fixtures: fewer }) },
      { twin: 'stiffer', line, cost, twinCost: plainCost({ ...single, lineKinds: stiffer }) },
    ];
  });
}

/** Twins must be alike; with less in the way a run must not become dearer, stiffer it must not become cheaper. By what share it does. */
export function wrongBy({ twin, cost, twinCost }: Pair): number {
  const [a, b] = [cost ?? Number.POSITIVE_INFINITY, twinCost ?? Number.POSITIVE_INFINITY];
  if (a === b) return 0;
  if (twin === 'obstacles gone') return Math.max(0, b / a - 1);
  if (twin === 'stiffer') return Math.max(0, a / b - 1);
  return Math.max(a, b) / Math.min(a, b) - 1;
}
