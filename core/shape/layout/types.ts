import type { Vec3 } from '../../base/vec';

/** Outward half-space: inside where dot(normal, p) <= offset. */
export interface Plane {
  readonly normal: Vec3;
  readonly offset: number;
}

/** A convex piece of a compartment's prism. Not cut by the hull: the hull is a constraint of space. */
export interface Cell {
  readonly index: number;
  readonly compartment: string;
  readonly planes: readonly Plane[];
  readonly corners: readonly Vec3[];
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Where a run may go from one cell to another. Coplanar pieces of one panel keep the panel's id. */
export interface Portal {
  readonly index: number;
  readonly cells: readonly [number, number];
  /** From cells[0] into cells[1]. */
  readonly normal: Vec3;
  /** Convex, in the middle plane. */
  readonly polygon: readonly Vec3[];
  /** virtual: a cut inside one compartment, free of cost and frame. */
  readonly kind: 'virtual' | 'panel';
  readonly panelId: string;
}

export interface PanelHole {
  readonly id: string;
  readonly at: Vec3;
  readonly diameterM: number;
  readonly carries: readonly { readonly name: string; readonly diameterM: number }[];
  /** What runs through it is sealed in: no bilge water passes. */
  readonly sealed?: true;
  /** Decided on by the arrangement, still to be drilled. */
  readonly planned?: true;
  /** Of a planned hole: its id among the arrangement's new holes, and the lines that must pass the panel through it. */
  readonly newHoleId?: string;
  readonly forLines?: readonly string[];
}

/** A face between two compartments, with the data bound to it. */
export interface Panel {
  readonly id: string;
  readonly name: string;
  readonly between: readonly [string, string];
  /** Keys of the two sides that it lies between, in the order of `between`. */
  readonly faces: readonly [string, string];
  readonly rule: 'open' | 'drill' | 'noDrill';
  readonly thicknessM: number;
  readonly newHoleCostM: number;
  readonly edgeM: number;
  readonly material: string;
  /** Record of boat.panels that was bound, if any. */
  readonly dataId?: string;
  /** How far the `near` of that record is from the panel. */
  readonly dataDistanceM?: number;
  /** From between[0] into between[1]. */
  readonly normal: Vec3;
  /** Outlines in the middle plane; convex pieces, coplanar. */
  readonly pieces: readonly (readonly Vec3[])[];
  /** True outline in the middle plane, without the seams between pieces: a hole keeps its distance from these. */
  readonly edges: readonly (readonly [Vec3, Vec3])[];
  /** Space between the two outlines, negative where they overlap. */
  readonly gapM: number;
  readonly areaM2: number;
  readonly holes: readonly PanelHole[];
}

/** A solid plate: convex mid-polygon of a thickness. */
export interface Wall {
  readonly id: string;
  readonly polygon: readonly Vec3[];
  readonly normal: Vec3;
  readonly thicknessM: number;
  /** Cells that it bounds. */
  readonly cells: readonly number[];
  readonly panelId?: string;
  /** Record of boat.panels towards undrawn space that was bound to this face. */
  readonly dataId?: string;
  readonly label: string;
}

/** A record that found no panel. */
export interface Orphan {
  /** Id in boat.panels, or of the arrangement's new hole. */
  readonly dataId: string;
  readonly what: 'panel' | 'newHole';
  /** openPanel: a hole is planned where nothing needs to be drilled. */
  readonly reason: 'noSuchPair' | 'tooFar' | 'takenByNearer' | 'setAside' | 'openPanel';
}

export interface Layout {
  readonly cells: readonly Cell[];
  readonly cellsOf: Readonly<Record<string, readonly number[]>>;
  readonly panels: Readonly<Record<string, Panel>>;
  readonly portals: readonly Portal[];
  readonly walls: readonly Wall[];
  /** Panel records and new holes that no derived panel took. */
  readonly orphans: readonly Orphan[];
  /** Compartments whose outline encloses nothing (left out) or crosses itself (its convex hull is taken). */
  readonly flaws: readonly { readonly compartment: string; readonly reason: 'noVolume' | 'crossesItself' }[];
  /** Overlaps of two compartments that share space. */
  readonly overlaps: readonly {
    readonly between: readonly [string, string];
    readonly depthM: number;
    readonly at: Vec3;
  }[];
  /** Compartment that holds the point, the smallest by bounds if several; null in undrawn space. */
  compartmentAt(point: Vec3): string | null;
  cellAt(point: Vec3): number | null;
  /** The compartment's prism for drawing, not cut by the hull: bottom and top rings; empty without volume. */
  prismOf(compartment: string): { readonly rings: readonly [readonly Vec3[], readonly Vec3[]] };
}
