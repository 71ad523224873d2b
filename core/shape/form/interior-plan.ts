import type { z } from 'zod';
import { quantised } from '../../base/quantity';
import type { Vec2, Vec3 } from '../../base/vec';
import type { Boat, Hull } from '../../boat/schema/boat';
import type { compartment, opening, panel, standingPlace } from '../../boat/schema/interior';
import type { HullSurface } from '../hull/types';
import { deriveLayout } from '../layout/derive';
import { cellWithinHull, type Room, RoomSum } from '../layout/room';
import type { Layout } from '../layout/types';
import type { Dimensions } from './dimensions';

export type CompartmentDraft = z.input<typeof compartment>;
export type OpeningDraft = z.input<typeof opening>;
export type PanelDraft = z.input<typeof panel>;
export type StandingDraft = z.input<typeof standingPlace>;
type Kind = NonNullable<CompartmentDraft['kind']>;
type Span = readonly [number, number];

/** Where the plan of one form puts its interior. */
export interface Site {
  readonly d: Dimensions;
  readonly hull: HullSurface;
  /** Height of the cabin sole. */
  readonly soleZ: number;
  /** Lowest point of the body under a stretch: fins are solid, long keels hollow in their upper part. */
  floorZ(from: number, to: number): number;
}

/** Faces of a compartment that an opening is cut in. */
export type Face = 'top' | 'inboard' | 'aft' | 'forward';

export interface OpeningPlan {
  readonly id: string;
  readonly name: string;
  readonly compartment: string;
  readonly to: string;
  readonly face: Face;
  /** Greatest clear size [width, height]; less where the face is smaller. */
  readonly mostM: Vec2;
  readonly how?: OpeningDraft['how'];
  readonly standing?: string;
  readonly moveFirst?: readonly string[];
  readonly weatherDeck?: boolean;
}

/** A divided interior before measured lockers, openings and panels are settled. */
export interface InteriorPlan {
  readonly compartments: Readonly<Record<string, CompartmentDraft>>;
  readonly openings: readonly OpeningPlan[];
  /** Pairs of spaces with nothing between them. */
  readonly open: readonly (readonly [string, string])[];
  /** Bulkheads and other panels that carry something: pair and thickness. */
  readonly bulkheads: readonly (readonly [string, string])[];
  readonly standing: Readonly<Record<string, StandingDraft>>;
  /** Place of the main bulkhead, from which lockers are measured. */
  readonly mainBulkheadM: number;
}

/** Space between two compartments: the board or bulkhead that parts them. */
export const BOARD_M = 0.02;
/** Compartments with less room than this inside the hull, or thinner, are left out. */
const LEAST_VOLUME_M3 = 0.012;
const LEAST_THICKNESS_M = 0.08;
/** Heights above the sole. Common practice, no source. */
export const SEAT_M = 0.42;
export const COUNTER_M = 0.9;

/** Collects compartments drawn as boxes or as sections; lengths to the millimetre. */
export class PlanBuilder {
  readonly compartments: Record<string, CompartmentDraft> = {};
  readonly openings: OpeningPlan[] = [];
  readonly open: (readonly [string, string])[] = [];
  readonly bulkheads: (readonly [string, string])[] = [];
  readonly standing: Record<string, StandingDraft> = {};

  box(id: string, name: string, kind: Kind, x: Span, y: Span, zSpan: Span, more: Partial<CompartmentDraft> = {}): void {
    this.plan(
      id,
      name,
      kind,
      [
        [x[0], y[0]],
        [x[1], y[0]],
        [x[1], y[1]],
        [x[0], y[1]],
      ],
      zSpan,
      more,
    );
  }

  plan(
    id: string,
    name: string,
    kind: Kind,
    outline: readonly Vec2[],
    zSpan: Span,
    more: Partial<CompartmentDraft> = {},
  ): void {
    this.compartments[id] = drafted(name, kind, 'plan', outline, zSpan, more);
  }

  section(
    id: string,
    name: string,
    kind: Kind,
    outline: readonly Vec2[],
    x: Span,
    more: Partial<CompartmentDraft> = {},
  ): void {
    this.compartments[id] = drafted(name, kind, 'section', outline, x, more);
  }

  stand(id: string, name: string, at: Vec3, more: Partial<StandingDraft> = {}): void {
    this.standing[id] = { name, at: tidy3(at), ...more };
  }

  opening(plan: OpeningPlan): void {
    this.openings.push(plan);
  }

  finished(mainBulkheadM: number): InteriorPlan {
    const { compartments, openings, open, bulkheads, standing } = this;
    return { compartments, openings, open, bulkheads, standing, mainBulkheadM };
  }
}

function drafted(
  name: string,
  kind: Kind,
  view: CompartmentDraft['view'],
  outline: readonly Vec2[],
  range: Span,
  more: Partial<CompartmentDraft>,
): CompartmentDraft {
  return {
    name,
    kind,
    view,
    outline: outline.map(([a, b]): [number, number] => [millimetre(a), millimetre(b)]),
    rangeM: [millimetre(range[0]), millimetre(range[1])],
    grade: 'guessed',
    ...more,
  };
}

export const millimetre = (metres: number): number => quantised(Math.round(metres * 1000) / 1000);
export const tidy3 = (p: Vec3): [number, number, number] => [millimetre(p[0]), millimetre(p[1]), millimetre(p[2])];

/** The plan on the other side: outlines and faces mirrored, ids and names as given. */
export const mirrored = (outline: readonly Vec2[]): Vec2[] => outline.map(([y, z]): Vec2 => [-y, z]).reverse();

/** Sections of the hull in which rooms are looked at, besides the ends of each cell: their spacing as a share of the length. */
const SECTIONS = 1 / 36;
const END_M = 1e-3;

/** Rooms of all compartments inside the hull: enough to see what is worth drawing and where it ends, at a glance. */
export function roomsOf(compartments: Boat['compartments'], hull: HullSurface): Readonly<Record<string, Room>> {
  const layout = deriveLayout({ compartments, panels: {}, newHoles: {}, newHoleCostM: 0 });
  return Object.fromEntries(Object.keys(compartments).map((id) => [id, roomOf(layout, hull, id)]));
}

function roomOf(layout: Layout, hull: HullSurface, compartment: string): Room {
  const sum = new RoomSum();
  const step = (hull.forwardM - hull.aftM) * SECTIONS;
  for (const index of layout.cellsOf[compartment] ?? []) {
    const cell = layout.cells[index];
    if (!cell) continue;
    const from = Math.max(cell.low[0], hull.aftM + hull.insetM) + END_M;
    const to = Math.min(cell.high[0], hull.forwardM) - END_M;
    const xs = [from, to].filter(() => to > from);
    for (let k = Math.ceil((from - hull.aftM) / step); hull.aftM + k * step < to; k += 1)
      xs.splice(-1, 0, hull.aftM + k * step);
    xs.forEach((x, i) => {
      // Each section stands for half of the way to its neighbours.
      const widthM = ((xs[i + 1] ?? x) - (xs[i - 1] ?? x)) / 2;
      for (const ring of cellWithinHull(cell, hull, x, hull.insetM)) sum.add(ring, { x, widthM, fromM: x, toM: x });
    });
  }
  return sum.room();
}

/** Whether a compartment is worth drawing. */
export const hasRoom = ({ volumeM3, low, high }: Room): boolean =>
  volumeM3 >= LEAST_VOLUME_M3 && [0, 1, 2].every((k) => (high[k] ?? 0) - (low[k] ?? 0) >= LEAST_THICKNESS_M);

/** Inner half-breadth of one hull from its centre at a height. */
export const innerBreadth = ({ hull }: Pick<Site, 'hull'>, x: number, zM: number): number =>
  Math.max(0, hull.halfBreadthAt(x, Math.min(zM, hull.sheerAt(x))) - hull.insetM);

/** Height of the body's bottom, where a keel stands out from it, by station. */
export function bodyBottom(
  hull: Hull,
): readonly { readonly xM: number; readonly rootZ: number; readonly keelZ: number }[] {
  return Object.values(hull.stations)
    .map(({ xM, points, knuckles }) => ({
      xM,
      rootZ: points[knuckles?.[0] ?? 0]?.[1] ?? 0,
      keelZ: points[0]?.[1] ?? 0,
    }))
    .sort((a, b) => a.xM - b.xM);
}
