import { distance, type Vec3 } from '../base/vec';
import { combine } from '../boat/accuracy';
import { LIVING_SPACES } from '../boat/kinds';
import { sameValue } from '../boat/schema-walk';
import { clipsAlong } from '../output/takeoff/clips';
import { drillingOf } from '../output/takeoff/hole-place';
import {
  allowancesOf,
  type TakeoffClip,
  type TakeoffEnd,
  type TakeoffInput,
  type TakeoffLine,
} from '../output/takeoff/input';
import type { TakeoffRow } from '../output/takeoff/row';
import { takeoff as takeoffOf } from '../output/takeoff/takeoff';
import { UNDRAWN_TEXT } from '../output/takeoff/words';
import { pointsAlong } from '../rules/along-run';
import { holderOf } from '../rules/held-along';
import { arcSweep, primLength } from '../runs/routing/prims';
import type { Prim } from '../runs/routing/types';
import { factsOver } from './facts';
import { run } from './final-run';
import { gradesOver } from './grade-stages';
import { fitting } from './routing-line';
import { compartmentOf, hull, layout } from './shape-stages';
import * as source from './source';
import { spare } from './spare-stages';
import type { ComputedStage, Read } from './store';

/** The parts-and-lengths list of what is placed and routed. */
export const takeoff: ComputedStage<readonly TakeoffRow[]> = {
  id: 'takeoff',
  compute: (_, read) => {
    const { panels } = read(layout);
    const entered = read(enterable, '');
    return takeoffOf({
      parts: read(source.partIds).flatMap((id) => {
        const part = read(source.partById, id);
        if (!part) return [];
        return [{ id, part, place: read(source.pose, id) ? placeName(read, id) : undefined }];
      }),
      lines: read(source.lineIds).flatMap((id) => read(takeoffLine, id) ?? []),
      panels,
      suppliedLengths: Object.entries(read(source.suppliedLengths) ?? {}).map(([id, length]) => ({ id, ...length })),
      allowances: allowancesOf(read(source.takeoffSettings)),
      practice: read(source.practice),
      drilling(panelId, at) {
        const panel = panels[panelId];
        if (!panel) return { from: null, edges: [] };
        return drillingOf(panel, at, {
          layout: read(layout),
          hull: read(hull),
          canEnter: (compartment) => entered.includes(compartment),
        });
      },
      compartmentName: (id) => read(source.compartmentName, id) ?? id,
    } satisfies TakeoffInput);
  },
  same: sameValue,
};

/** Compartments that a person can get a drill into: lived in, or with an opening drawn. Where none is drawn at all, any. */
const enterable: ComputedStage<readonly string[]> = {
  id: 'enterable',
  compute: (_, read) => {
    const openings = Object.values(read(source.openings));
    const compartments = Object.entries(read(source.compartmentData));
    if (openings.length === 0) return compartments.map(([id]) => id);
    const opened = new Set(openings.flatMap(({ compartment, to }) => [compartment, to]));
    return compartments.flatMap(([id, { kind }]) => (opened.has(id) || LIVING_SPACES.has(kind) ? [id] : []));
  },
  same: sameValue,
};

const takeoffLine: ComputedStage<TakeoffLine | null> = {
  id: 'takeoffLine',
  compute: (id, read) => {
    const line = read(source.line, id);
    const kind = line && read(source.lineKind, line.kind);
    if (!line || !kind) return null;
    const outcome = read(run, id);
    const routed = outcome.status === 'routed' ? outcome : null;
    return {
      id,
      line,
      kindId: line.kind,
      kind,
      fittings: [fitting(line, kind, 'from'), fitting(line, kind, 'to')],
      ends: [endOf(read, line.from.thing), endOf(read, line.to.thing)],
      run: routed && { lengthM: routed.lengthM, crossings: routed.crossings },
      doubtM: combine(doubtOf(read, line.from.thing), doubtOf(read, line.to.thing)),
      clips: routed && !line.existing ? read(clips, id) : [],
      spare: read(spare, id),
    };
  },
  same: sameValue,
};

function endOf(read: Read, thingId: string): TakeoffEnd {
  const thing = read(source.thing, thingId);
  const name = thing?.name ?? thingId;
  return {
    thing: thingId,
    name: thing?.tag ? `${name} (${thing.tag})` : name,
    isSeacock: thing?.kind === 'seacock',
    isValve: thing?.valve !== undefined,
    place: read(source.pose, thingId) ? (placeName(read, thingId) ?? UNDRAWN_TEXT) : '',
  };
}

/** How far off a thing may really be: a fixture as it was measured; a part is set off from the walls about it. */
function doubtOf(read: Read, thingId: string): number {
  const { gradeOf } = gradesOver(read);
  if (!read(source.isPart, thingId)) return gradeOf(thingId).gradeM;
  const compartment = read(compartmentOf, thingId);
  return compartment === null ? 0 : gradeOf(compartment).gradeM;
}

/** Where the clips of a routed line go. */
const clips: ComputedStage<readonly TakeoffClip[]> = {
  id: 'clips',
  compute: (lineId, read) => {
    const line = read(source.line, lineId);
    const kind = line && read(source.lineKind, line.kind);
    const outcome = read(run, lineId);
    if (!kind || kind.supportM === undefined || outcome.status !== 'routed') return [];
    const fixed = Object.values(read(source.clipPoints, lineId)).map(({ at }) => at);
    if (outcome.lengthM <= kind.supportM && fixed.length === 0) return [];
    const points = pointsAlong(outcome.prims);
    const holds = holderOf(points, kind.outsideM / 2, fixed, factsOver(read));
    const bent = bentAlong(outcome.prims);
    const spots = points.map(({ alongM, at }) => ({
      alongM,
      // Most places are never asked.
      get canHold() {
        return holds(at);
      },
      isBent: bent(alongM),
    }));
    const fixedM = fixed.map((at) => alongOf(points, at));
    const { compartmentAt } = read(layout);
    return clipsAlong(spots, outcome.lengthM, kind.supportM, fixedM).flatMap(({ spot, isFar }) => {
      const point = points[spot];
      if (!point) return [];
      const id = compartmentAt(point.at);
      const place = id === null ? UNDRAWN_TEXT : (read(source.compartmentName, id) ?? id);
      return [{ alongM: point.alongM, place, isFar }];
    });
  },
  same: sameValue,
};

/** A turn of less is what relaxing leaves of a straight. */
const BENT_RAD = 0.05;

function bentAlong(prims: readonly Prim[]): (alongM: number) => boolean {
  const bends: (readonly [number, number])[] = [];
  let startM = 0;
  for (const prim of prims) {
    const length = primLength(prim);
    if (prim.kind === 'arc' && arcSweep(prim) > BENT_RAD) bends.push([startM, startM + length]);
    startM += length;
  }
  return (alongM) => bends.some(([from, to]) => alongM >= from && alongM <= to);
}

const alongOf = (points: readonly { readonly at: Vec3; readonly alongM: number }[], at: Vec3): number =>
  points.reduce(
    (best, point) => (distance(point.at, at) < distance(best.at, at) ? point : best),
    points[0] ?? { at, alongM: 0 },
  ).alongM;

function placeName(read: Read, thingId: string): string | null {
  const id = read(compartmentOf, thingId);
  return id === null ? null : (read(source.compartmentName, id) ?? id);
}
