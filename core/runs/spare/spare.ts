/** Where the length of a supplied hose goes that its run does not need. */

import * as portable from '../../base/portable';
import { along, cross, distance, dot, scale, squareTo, subtract, type Vec3 } from '../../base/vec';
import { segmentSegmentSquared } from '../../shape/space/segment-distance';
import { holeStraightLacking, piecesOf } from '../pinned/pieces';
import { asLaid } from '../routing/end-variants';
import { type End, endOf } from '../routing/leads';
import type { HoseClass } from '../routing/nodes';
import { placesOn, primLength } from '../routing/prims';
import { structureOf } from '../routing/structure';
import type { Prim, Routed, RoutingLine, RoutingView } from '../routing/types';
import { validate } from '../routing/validate';
import { RUN_GAP_M, World } from '../routing/world';
import { bulge, coil, type SpareShape } from './shapes';
import { Walk } from './walk';
import { widerRuns } from './wider';

/**
 * none: there is next to nothing to spare. cut: it may be cut, `toM` is what to leave. bulge, coil: laid beside a straight of the
 * run; wider: a bend of the run is led wider; `prims` are the whole run with the spare in it, as long as the hose. noPlace: no free
 * place was found for it.
 */
export type Spare =
  | { readonly kind: 'none' }
  | { readonly kind: 'cut'; readonly toM: number; readonly offM: number }
  | {
      readonly kind: 'bulge' | 'coil' | 'wider';
      readonly excessM: number;
      /** Middle of the straight that it stands beside; the corner that is led wider. */
      readonly at: Vec3;
      readonly spanM: number;
      readonly heightM: number;
      /** Tightest bend of it. */
      readonly radiusM: number;
      /** Bulges in a row, or turns of the coil. */
      readonly count: number;
      readonly prims: readonly Prim[];
    }
  | { readonly kind: 'noPlace'; readonly excessM: number };

/** Less than this lies in the run unseen: common practice, no source. */
const UNSEEN_M = 0.01;
/** A coil is for what would stand out as a bulge of several radii: project judgement. */
const COIL_FROM_TURNS = 1.1;
const DIRECTIONS = 16;
/** Bulges are laid to a hair above the least radius. */
const RADIUS_SHARE = 1.001;
/** Chords of the hose for the question whether it meets itself. */
const SAMPLE_M = 0.015;
/** Looks at real solids before it is given up. */
const MOST_TRIES = 400;

export interface SuppliedLength {
  readonly lengthM: number;
  readonly spareM: number;
  readonly mayCut: boolean;
}

/** Null where the hose is too short. The view: all that the run must clear, other runs in it, its own not. */
export function spareOf(view: RoutingView, asked: RoutingLine, run: Routed, supplied: SuppliedLength): Spare | null {
  const line = asLaid(asked, run);
  const excessM = supplied.lengthM - run.lengthM;
  if (excessM < 0) return null;
  if (supplied.mayCut) {
    const toM = run.lengthM + supplied.spareM;
    return supplied.lengthM - toM > UNSEEN_M ? { kind: 'cut', toM, offM: supplied.lengthM - toM } : { kind: 'none' };
  }
  if (excessM <= UNSEEN_M) return { kind: 'none' };
  return laid(view, line, run, excessM) ?? { kind: 'noPlace', excessM };
}

/** A straight of the run with room for something beside it. */
interface Straight {
  readonly index: number;
  readonly from: Vec3;
  readonly way: Vec3;
  /** Usable part, metres from its start. */
  readonly fromM: number;
  readonly toM: number;
}

function laid(view: RoutingView, line: RoutingLine, run: Routed, excessM: number): Spare | null {
  const world = new World(view, line);
  const structure = structureOf(view.layout);
  const hose: HoseClass = {
    radiusM: line.radiusM,
    bendRadiusM: line.bendRadiusM,
    holeRadiusM: Math.max(line.holeRadiusM, line.radiusM),
  };
  const [from, to] = [endOf(world, line, line.from), endOf(world, line, line.to)];
  if ('reason' in from || 'reason' in to) return null;
  const ends: readonly [End, End] = [from, to];
  const straights = straightsOf(run.prims, piecesOf(run.prims, structure, hose), line, ends);
  const isLegal = (prims: readonly Prim[]): boolean => {
    const pieces = piecesOf(prims, structure, hose);
    const [first, last] = [pieces[0], pieces.at(-1)];
    if (!first || !last || first.lengthM < ends[0].leadM - KEPT_M || last.lengthM < ends[1].leadM - KEPT_M)
      return false;
    if (pieces.some((piece) => holeStraightLacking(piece) > KEPT_M)) return false;
    return !validate(world, line, pieces, ends).flaw && !meetsItself(prims, line);
  };
  let tries = 0;
  for (const shape of shapesFor(excessM, line))
    for (const straight of straights) {
      const room = straight.toM - straight.fromM - shape.spanM;
      if (room < 0) continue;
      for (const share of room > 0.02 ? [0.5, 0, 1] : [0.5])
        for (const side of sidesOf(straight.way, view.up)) {
          tries += 1;
          if (tries > MOST_TRIES) break;
          const prims = withShape(run.prims, straight, straight.fromM + share * room, shape, side);
          if (!isLegal(prims)) continue;
          return {
            kind: shape.kind,
            excessM,
            at: along(straight.from, straight.way, straight.fromM + share * room + shape.spanM / 2),
            spanM: shape.spanM,
            heightM: shape.heightM,
            radiusM: shape.radiusM,
            count: shape.count,
            prims,
          };
        }
    }
  const leastM = RADIUS_SHARE * line.bendRadiusM;
  for (const { prims, at, movedM } of widerRuns(run, leastM, run.lengthM + excessM, line.clipPoints))
    if (isLegal(prims))
      return { kind: 'wider', excessM, at, spanM: 0, heightM: movedM, radiusM: leastM, count: 1, prims };
  return null;
}

/** Shapes in the order in which they are wanted: one easy bulge, tighter ones, several in a row; for much, a coil first. */
function shapesFor(excessM: number, { bendRadiusM, radiusM }: RoutingLine): readonly SpareShape[] {
  const least = RADIUS_SHARE * bendRadiusM;
  const turns = coil(excessM, least, radiusM, 2 * radiusM + RUN_GAP_M);
  const bulges = [
    bulge(excessM, 2 * least, 1),
    bulge(excessM, 1.4 * least, 1),
    ...[1, 2, 3, 4].map((count) => bulge(excessM, least, count)),
  ];
  if (!turns) return bulges;
  return excessM >= COIL_FROM_TURNS * 2 * Math.PI * bendRadiusM ? [turns, ...bulges] : [...bulges, turns];
}

/** Straights of the run by length, longest first, less what the ends, holes and clip points need. */
function straightsOf(
  prims: readonly Prim[],
  pieces: ReturnType<typeof piecesOf>,
  line: RoutingLine,
  ends: readonly [End, End],
): readonly Straight[] {
  const found = prims.flatMap((prim, index): Straight[] => {
    if (prim.kind !== 'line') return [];
    const lengthM = primLength(prim);
    if (lengthM < 1e-6) return [];
    const way = scale(subtract(prim.to, prim.from), 1 / lengthM);
    const taken: [number, number][] = [];
    if (index === 0) taken.push([0, ends[0].leadM]);
    if (index === prims.length - 1) taken.push([lengthM - ends[1].leadM, lengthM]);
    for (const { element } of pieces) {
      if (element?.kind !== 'hole') continue;
      const { frame, params, stubM } = element;
      const centre = along(along(frame.origin, frame.u, params[0] ?? 0), frame.v, params[1] ?? 0);
      const s = dot(subtract(centre, prim.from), way);
      if (distance(centre, along(prim.from, way, s)) < 1e-4 && s > -stubM && s < lengthM + stubM)
        taken.push([s - stubM, s + stubM]);
    }
    for (const clip of line.clipPoints) {
      const s = dot(subtract(clip, prim.from), way);
      if (distance(clip, along(prim.from, way, s)) < CLIP_NEAR_M && s > -CLIP_NEAR_M && s < lengthM + CLIP_NEAR_M)
        taken.push([s - CLIP_NEAR_M, s + CLIP_NEAR_M]);
    }
    return gaps(taken, lengthM).map(([fromM, toM]) => ({ index, from: prim.from, way, fromM, toM }));
  });
  return found.sort((a, b) => b.toM - b.fromM - (a.toM - a.fromM) || a.index - b.index || a.fromM - b.fromM);
}
const CLIP_NEAR_M = 0.006;
/** Straights that ends and holes ask for are kept to this. */
const KEPT_M = 1e-6;

function gaps(taken: readonly (readonly [number, number])[], lengthM: number): [number, number][] {
  const free: [number, number][] = [];
  let at = 0;
  for (const [from, to] of [...taken].sort((a, b) => a[0] - b[0])) {
    if (from > at) free.push([at, Math.min(from, lengthM)]);
    at = Math.max(at, to);
  }
  if (at < lengthM) free.push([at, lengthM]);
  return free;
}

/** Ways to stand out: level ones first, so that no high point is made, upward ones last. */
function sidesOf(way: Vec3, up: Vec3): readonly Vec3[] {
  const u = squareTo(way);
  const v = cross(way, u);
  const sides = Array.from({ length: DIRECTIONS }, (_, k): Vec3 => {
    const angle = (2 * Math.PI * k) / DIRECTIONS;
    return along(scale(u, portable.cos(angle)), v, portable.sin(angle));
  });
  const rank = (side: Vec3): number => {
    const rise = dot(side, up);
    return Math.round(1e6 * (rise > 0 ? rise + 0.5 : -rise));
  };
  return sides.sort((a, b) => rank(a) - rank(b));
}

function withShape(
  prims: readonly Prim[],
  { index, from, way }: Straight,
  startM: number,
  shape: SpareShape,
  side: Vec3,
): readonly Prim[] {
  const own = prims[index] as Prim;
  const walk = new Walk(from, way).straight(startM);
  shape.lay(walk, way, side);
  const restM = dot(subtract(own.to, walk.position), way);
  // What is left of the straight ends where it ended before, to the last digit.
  const rest: Prim[] = restM > 1e-6 ? [{ kind: 'line', from: walk.position, to: own.to }] : [];
  return [...prims.slice(0, index), ...walk.prims, ...rest, ...prims.slice(index + 1)];
}

/** Whether the hose cuts itself, other than where it goes on. Turns of a coil may lie side by side. */
function meetsItself(prims: readonly Prim[], { radiusM, bendRadiusM }: RoutingLine): boolean {
  const points: Vec3[] = [];
  const places: number[] = [];
  let start = 0;
  for (const prim of prims) {
    const lengthM = primLength(prim);
    const parts = Math.max(1, Math.ceil(lengthM / SAMPLE_M));
    const at = placesOn(prim);
    for (let part = 0; part < parts; part += 1) {
      const s = (lengthM * part) / parts;
      points.push(at(part / parts));
      places.push(start + s);
    }
    start += lengthM;
  }
  const need = 4 * radiusM * radiusM;
  const goesOnM = Math.PI * bendRadiusM;
  for (let i = 0; i + 1 < points.length; i += 1)
    for (let j = i + 1; j + 1 < points.length; j += 1) {
      if ((places[j] as number) - (places[i] as number) < goesOnM) continue;
      const [a, b] = [points[i] as Vec3, points[i + 1] as Vec3];
      const [c, d] = [points[j] as Vec3, points[j + 1] as Vec3];
      if (segmentSegmentSquared(...a, ...b, ...c, ...d) < need) return true;
    }
  return false;
}
