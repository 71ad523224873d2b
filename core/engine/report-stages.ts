import { ENGINE_VERSION } from '../base/engine-version';
import { quantised } from '../boat/quantise';
import { sameValue } from '../boat/schema-walk';
import { forcedCrest } from '../runs/forced-crest';
import { unrolledProfile } from '../runs/profile';
import type { Crossing } from '../runs/routing/types';
import { isSuction } from './circuit-stages';
import { run } from './final-run';
import { findings } from './finding-stages';
import type { HoleReport, PlaceReport, Report, RunReport } from './report';
import { wish } from './run-stages';
import { compartmentOf } from './shape-stages';
import * as source from './source';
import { spare } from './spare-stages';
import type { ComputedStage } from './store';
import { takeoff } from './takeoff-stages';
import { attitude } from './water-stages';

const place: ComputedStage<PlaceReport | null> = {
  id: 'place',
  compute: (thingId, read) => {
    const pose = read(source.pose, thingId);
    return pose && { ...pose, compartment: read(compartmentOf, thingId) };
  },
  same: sameValue,
};

/** Places of all things that have one, fixtures too, by id. */
const places: ComputedStage<Readonly<Record<string, PlaceReport>>> = {
  id: 'places',
  compute: (_, read) =>
    Object.fromEntries(
      read(source.thingIds).flatMap((id) => {
        const found = read(place, id);
        return found ? [[id, found] as const] : [];
      }),
    ),
  same: sameValue,
};

/** What the report says of one line. */
export const runReport: ComputedStage<RunReport> = {
  id: 'runReport',
  compute: (lineId, read) => {
    const outcome = read(run, lineId);
    if (outcome.status === 'blocked') {
      const { proved, proof, effort, reason, lowerBoundM } = outcome;
      return {
        lineId,
        status: 'blocked',
        proved,
        ...(proof ? { proof } : {}),
        ...(effort ? { effort } : {}),
        lengthM: null,
        lowerBoundM,
        prims: [],
        holes: [],
        minClearanceM: null,
        reason,
      };
    }
    const { prims, crossings, lengthM, costM, costs, lowerBoundM, costBoundM, minClearanceM, bends, leastRadiusM } =
      outcome;
    const laid = read(spare, lineId);
    const heights = unrolledProfile(prims, read(attitude)).map(({ heightM }) => heightM);
    const asked = read(isSuction, lineId) ? read(wish, lineId) : null;
    const forced = asked?.outcome === 'line' ? forcedCrest(asked.line, read(attitude).up) : null;
    return {
      lineId,
      status: 'routed',
      lengthM,
      lowerBoundM,
      costM,
      costBoundM,
      costs,
      prims,
      holes: crossings.map(holeReport),
      minClearanceM,
      bends,
      leastRadiusM,
      crestM: Math.max(...heights),
      ...(forced ? { forcedCrest: forced } : {}),
      ...(outcome.pinned ? { pinned: true } : {}),
      ...(laid ? { spare: laid } : {}),
    };
  },
  same: sameValue,
};

export const report: ComputedStage<Report> = {
  id: 'report',
  compute: (_, read) => {
    const runs = read(source.lineIds).map((id) => read(runReport, id));
    const all = read(findings);
    const rows = read(takeoff);
    const failed = (severity: string): number =>
      all.filter((finding) => finding.outcome === 'fail' && finding.severity === severity).length;
    const outcome = (wanted: string): number => all.filter((finding) => finding.outcome === wanted).length;
    return {
      engineVersion: ENGINE_VERSION,
      boat: read(source.boatName),
      arrangement: read(source.arrangementId),
      attitude: read(attitude),
      places: read(places),
      runs,
      findings: all,
      takeoff: rows,
      summary: {
        danger: failed('danger'),
        fault: failed('fault'),
        advice: failed('advice'),
        cannotTell: outcome('cannotTell'),
        pass: outcome('pass'),
        closeCalls: all.filter((finding) => 'closeCall' in finding && finding.closeCall !== undefined).length,
        routed: runs.filter(({ status }) => status === 'routed').length,
        blocked: runs.filter(({ status }) => status === 'blocked').length,
        hoseM: quantised(runs.reduce((sum, { lengthM }) => sum + (lengthM ?? 0), 0)),
        newHoles: holesToDrill(runs),
      },
    };
  },
  same: () => false,
};

function holeReport({ panelId, at, holeAt, diameterM, holeId, newHoleId, fedFrom }: Crossing): HoleReport {
  const isPlanned = newHoleId !== undefined;
  return {
    panelId,
    at: holeAt ?? at,
    diameterM,
    existing: holeId !== null && !isPlanned,
    ...(fedFrom === undefined ? {} : { fedFrom }),
    ...(isPlanned ? { newHoleId } : {}),
  };
}

/** A hole that several runs share is drilled once. */
function holesToDrill(runs: readonly RunReport[]): number {
  const all = runs.flatMap(({ holes }) => holes.filter(({ existing }) => !existing));
  const planned = new Set(all.flatMap(({ newHoleId }) => newHoleId ?? []));
  return all.filter(({ newHoleId }) => newHoleId === undefined).length + planned.size;
}
