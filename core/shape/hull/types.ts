import type { Vec2, Vec3 } from '../../base/vec';

/** A plane water surface in the boat frame: points p with dot(p, up) = level are at the water; below it dot(p, up) < level. */
export interface WaterPlane {
  readonly up: Vec3;
  readonly levelM: number;
}

export interface Attitude extends WaterPlane {
  /** `weights`: floated at the mass entered, nothing was measured; `frame`: neither, the water is at z = 0. */
  readonly source: 'frame' | 'freeboards' | 'levelMarks' | 'weights';
  /** + when the boat lies deeper than the frame's z = 0 at the middle of the points, or of the hull where none was measured. */
  readonly sinkageM: number;
  /** + bow down. */
  readonly trimDeg: number;
  /** + to starboard. */
  readonly listDeg: number;
  /** Greatest residual of the measured points, metres. */
  readonly residualM: number;
  /** Two standard deviations of a height above this water. */
  readonly gradeM: number;
}

/**
 * The one hull surface. Everything reads this: hydrostatics, clipping, clearance, drawing.
 * `triangles` is the closed skin up to the sheer (no deck, no transom cap unless the last station has area), both sides,
 * mirrored by construction. `insetM` is shell plus lining: the free interior stays that far from the triangles.
 */
export interface HullSurface {
  readonly aftM: number;
  readonly forwardM: number;
  readonly insetM: number;
  /** Offset of this hull's centre off the centreline. */
  readonly offsetM: number;
  /** Half-breadth of the outer skin from the hull's centre, 0 outside the hull. */
  halfBreadthAt(xM: number, zM: number): number;
  keelAt(xM: number): number;
  sheerAt(xM: number): number;
  /** Outer section at x: [y, z] from the port sheer round the keel to the starboard sheer; empty beyond the ends. */
  sectionAt(xM: number): readonly Vec2[];
  /**
   * Free interior at x: rings [y, z], counter-clockwise, off the skin by `insetM` (default: the hull's own), open above the sheer
   * between its upright sides. Of a hull off the centreline, those of both hulls.
   */
  insideAt(xM: number, insetM?: number): readonly (readonly Vec2[])[];
  /** Waterline at z: [x, half-breadth] from aft forward. */
  waterlineAt(zM: number): readonly Vec2[];
  /** Buttock at y: [x, z]. */
  buttockAt(yM: number): readonly Vec2[];
  /** True when the point is inside the outer skin, below the sheer. */
  contains(point: Vec3): boolean;
  /**
   * Free distance from the segment to the inner face (skin inset by insetM): negative when it leaves the interior.
   * Exact below `cutoffM`, otherwise any value >= cutoffM.
   */
  clearance(a: Vec3, b: Vec3, cutoffM: number): number;
  /** Columns of the surface: between two of them every edge of a section moves on a flat facet. */
  readonly columnsM: Float64Array;
  /** Indexed triangles: 3 coordinates a vertex, 3 indices a triangle, outward counter-clockwise. */
  readonly vertices: Float64Array;
  readonly triangles: Uint32Array;
  /** Triangles that close the skin flat from sheer to sheer; no part of the skin. */
  readonly deck: Uint32Array;
}
