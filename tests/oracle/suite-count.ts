import { type AnalyzeOptions, analyze } from '@core/analyze';
import type { Boat } from '@core/boat/schema/boat';
import type { Report, RunReport } from '@core/engine/report';
import { wish } from '@core/engine/run-stages';
import { sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import type { RoutingLine } from '@core/runs/routing/types';
import { hullSurface } from '@core/shape/hull/surface';
import { checkRuns, type Violation } from '../support/check-run';
import { normalised, type P3 } from '../support/geometry-oracle';
import { gridRun } from '../support/grid/grid-run';
import { forcedHeight, priceOf, trappedHeight } from '../support/price-oracle';
import { type Interior, interiorOf, readRun } from '../support/run-oracle';
import { radiusOf, suiteScene } from '../support/suite-scene';
import { directionOf, pointOf } from '../support/things-oracle';
import { boatOf } from './judged';

/** What is known of one line of a scene. Lengths and costs in metres; null: no run. Costs are length and new holes, by the oracle. */
export interface LineCount {
  readonly line: string;
  readonly radiusMm: number;
  /** Must pass a clip point, of which bounds know nothing. */
  readonly isClipped: boolean;
  /** What routes it: by construction, by the product in its two efforts, by the grid among the runs of the deep search. */
  readonly plant: number | null;
  readonly fast: number | null;
  /** The fast search with preferences off: to be compared in cost. */
  readonly fastPlain: number | null;
  readonly deep: number | null;
  readonly grid: number | null;
  readonly fastProved: boolean;
  readonly deepProved: boolean;
  /** Why the deep search found nothing, else the fast one. */
  readonly reason: string | null;
  /** Cost of the deep search's run with no other line aboard, and the bend-aware bound of it. */
  readonly alone: number | null;
  readonly costBound: number | null;
  /** Of a suction line: height trapped beyond what its ports force, and the length alone over that of the same line without suction. */
  readonly excessCrest: number | null;
  readonly crestPrice: number | null;
  /** Bounds above a length or a cost that is there. */
  readonly above: readonly string[];
}

export interface SceneCount {
  readonly seed: number;
  readonly isPlanted: boolean;
  readonly lines: readonly LineCount[];
  /** What the judge says against runs of either effort. */
  readonly faults: readonly string[];
  /** CPU milliseconds: fast, deep, alone, grid. */
  readonly cpuMs: readonly number[];
}

/** Parts of the count that take long can be left out. */
export interface CountOptions {
  readonly grid: boolean;
  readonly alone: boolean;
}

/** Preferences off: nothing but length, holes and suction has a price. Bounds are worked out closely. */
const PLAIN: AnalyzeOptions = { effort: 'deep', wishes: 'none', deeper: true };

export function countScene(seed: number, { grid, alone }: CountOptions): SceneCount {
  const scene = suiteScene(seed);
  const boat = boatOf(scene.boat);
  const clock = stopwatch();
  const fast = analyze(boat, { effort: 'fast' });
  const fastMs = clock();
  const plain = analyze(boat, { effort: 'fast', wishes: 'none' });
  clock();
  const deep = analyze(boat, PLAIN);
  const deepMs = clock();
  const interior = interiorOf(boat, deep);
  const hull = boat.hull ? hullSurface(boat.hull) : undefined;
  const judge = (report: Report): Violation[] => checkRuns(boat, report, hull ? { hull, interior } : { interior });
  const faults = [...named('fast', judge(fast)), ...named('plain', judge(plain)), ...named('deep', judge(deep))];
  const store = new Store(sourceOf(boat));
  let [aloneMs, gridMs] = [0, 0];
  const lines = deep.runs.map((run): LineCount => {
    const id = run.lineId;
    const asked = store.read(wish, id);
    if (asked.outcome !== 'line') throw new Error(`countScene: expected line ${id} of scene ${seed} to be askable`);
    const quick = fast.runs.find((one) => one.lineId === id) as RunReport;
    clock();
    const single = alone ? analyze(boatWith(boat, id), PLAIN).runs[0] : undefined;
    const suction = suctionOf(boat, interior, run, deep, asked.line, single);
    aloneMs += clock();
    const walked = grid && hull ? gridRun(boat, deep, id, { interior, hull }) : null;
    gridMs += clock();
    const plant = scene.planted[id] ?? null;
    const cost = (one: RunReport | undefined): number | null =>
      one?.status === 'routed' ? priceOf(interior, one) : null;
    return {
      line: id,
      radiusMm: radiusOf(boat.lines[id]?.kind ?? ''),
      isClipped: boat.arrangements.plan?.clipPoints[id] !== undefined,
      plant: plant && priceOf(interior, plant),
      fast: cost(quick),
      fastPlain: cost(plain.runs.find((one) => one.lineId === id)),
      deep: cost(run),
      grid: walked && priceOf(interior, walked),
      fastProved: quick.proved === true,
      deepProved: run.proved === true,
      reason: run.reason?.kind ?? quick.reason?.kind ?? null,
      alone: cost(single),
      costBound: single?.costBoundM ?? null,
      excessCrest: suction?.excess ?? null,
      crestPrice: suction?.price ?? null,
      above: boundsAbove(
        [run, quick, ...(single ? [single] : [])].map((one) => ({
          lengthM: one.lowerBoundM,
          costM: one.costBoundM ?? 0,
        })),
        [quick, run, single, plant, walked].map((one) => one && runCost(interior, one)),
      ),
    };
  });
  return { seed, isPlanted: scene.isPlanted, lines, faults, cpuMs: [fastMs, deepMs, aloneMs, gridMs].map(Math.round) };
}

const named = (effort: string, violations: readonly Violation[]): string[] =>
  violations.map((one) => `${effort} ${one.line} ${one.kind} ${one.amount} ${one.detail}`);

function stopwatch(): () => number {
  let last = process.cpuUsage();
  return () => {
    const spent = process.cpuUsage(last);
    last = process.cpuUsage();
    return (spent.user + spent.system) / 1000;
  };
}

/** The boat with one of its lines alone, optionally said to draw or not to draw its water. */
function boatWith(boat: Boat, lineId: string, suction?: boolean): Boat {
  const line = boat.lines[lineId];
  if (!line) throw new Error(`boatWith: expected a line ${lineId}`);
  return { ...boat, lines: { [lineId]: suction === undefined ? line : { ...line, suction } } };
}

interface Known {
  readonly lengthM: number;
  readonly costM: number;
}

function runCost(interior: Interior, run: Pick<RunReport, 'prims' | 'holes' | 'lengthM'>): Known | null {
  return run.lengthM === null ? null : { lengthM: run.lengthM, costM: priceOf(interior, run) };
}

const DUST = 1e-9;
function boundsAbove(bounds: readonly Known[], runs: readonly (Known | null | undefined)[]): string[] {
  const found: string[] = [];
  for (const run of runs)
    for (const bound of bounds) {
      if (!run) continue;
      if (bound.lengthM > run.lengthM + DUST) found.push(`length bound ${bound.lengthM} over ${run.lengthM}`);
      if (bound.costM > run.costM + DUST) found.push(`cost bound ${bound.costM} over ${run.costM}`);
    }
  return found;
}

/** Excess over the forced crest, and what keeping low costs in length: both with the line alone, where `alone` was routed. */
function suctionOf(
  boat: Boat,
  interior: Interior,
  run: RunReport,
  report: Report,
  asked: RoutingLine,
  alone: RunReport | undefined,
): { excess: number; price: number | null } | null {
  const line = boat.lines[run.lineId];
  const kind = line && boat.lineKinds[line.kind];
  if (!line?.suction || !kind || run.status !== 'routed') return null;
  const up = normalised(report.attitude.up);
  const read = readRun(boat, run, line, kind);
  const ends = (['from', 'to'] as const).map((which) => {
    const place = interior.places.get(line[which].thing);
    const port = boat.fixtures[line[which].thing]?.ports[line[which].port];
    if (!place || !port) throw new Error(`suctionOf: expected ${line[which].thing}.${line[which].port}`);
    return { at: pointOf(place, port.at), out: normalised(directionOf(place, port.direction) as P3) };
  }) as unknown as Parameters<typeof forcedHeight>[2];
  const excess = trappedHeight(run.prims, up) - forcedHeight(read, asked.bendRadiusM, ends, up);
  if (!alone?.lengthM) return { excess, price: null };
  const level = analyze(boatWith(boat, run.lineId, false), PLAIN).runs[0];
  return { excess, price: level?.lengthM ? alone.lengthM / level.lengthM - 1 : null };
}
