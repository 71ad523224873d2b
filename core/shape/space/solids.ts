import type { Rotation, Vec3 } from '../../base/vec';

/** structure < furnishing < keepOut < run: a query names the layers that stop it. */
export type Layer = 'structure' | 'furnishing' | 'sweep' | 'serviceKeepOut' | 'run';

/** A turned box: centre, half sides along its own axes. */
export interface BoxSolid {
  readonly type: 'box';
  readonly id: string;
  readonly owner: string;
  readonly label: string;
  readonly layer: Layer;
  readonly centre: Vec3;
  readonly half: Vec3;
  readonly axes: Rotation;
}
/** A cylinder with flat ends. */
export interface CylinderSolid {
  readonly type: 'cylinder';
  readonly id: string;
  readonly owner: string;
  readonly label: string;
  readonly layer: Layer;
  readonly from: Vec3;
  readonly to: Vec3;
  readonly radius: number;
}
/** A segment with a radius: a piece of a run, round ends. */
export interface CapsuleSolid {
  readonly type: 'capsule';
  readonly id: string;
  readonly owner: string;
  readonly label: string;
  readonly layer: Layer;
  readonly from: Vec3;
  readonly to: Vec3;
  readonly radius: number;
  /** Of a run: what it carries, where other lines mind. */
  readonly carries?: 'power' | 'signal';
}
export type Solid = BoxSolid | CylinderSolid | CapsuleSolid;
