import * as portable from '../../base/portable';
import { along, cross, type Vec3 } from '../../base/vec';
import type { Prim } from '../routing/types';

/** Lays straights and bends one after the other, each beginning where the last ended and going its way. Metres, radians. */
export class Walk {
  readonly prims: Prim[] = [];

  /** `heading`: unit. */
  constructor(
    private at: Vec3,
    private heading: Vec3,
  ) {}

  straight(lengthM: number): this {
    if (lengthM <= LEAST_M) return this;
    const to = along(this.at, this.heading, lengthM);
    this.prims.push({ kind: 'line', from: this.at, to });
    this.at = to;
    return this;
  }

  /** Turns towards `side`, a unit vector square to the heading, in bends of a right angle at most. Gives the new side. */
  turn(side: Vec3, angle: number, radius: number): Vec3 {
    const parts = Math.ceil(angle / (Math.PI / 2) - 1e-9);
    let inward = side;
    for (let part = 0; part < parts; part += 1) inward = this.bend(inward, angle / parts, radius);
    return inward;
  }

  private bend(side: Vec3, angle: number, radius: number): Vec3 {
    const { heading } = this;
    const centre = along(this.at, side, radius);
    const [cos, sin] = [portable.cos(angle), portable.sin(angle)];
    const out: Vec3 = mixed(side, -radius * cos, heading, radius * sin);
    const to = along(centre, out, 1);
    this.prims.push({ kind: 'arc', centre, radius, from: this.at, to, normal: cross(heading, side) });
    this.at = to;
    this.heading = mixed(heading, cos, side, sin);
    return mixed(side, cos, heading, -sin);
  }

  get position(): Vec3 {
    return this.at;
  }

  /** Two bends that shift the way aside and leave its direction: `angle` of each. */
  shift(side: Vec3, angle: number, radius: number): this {
    const inward = this.turn(side, angle, radius);
    this.turn([-inward[0], -inward[1], -inward[2]], angle, radius);
    return this;
  }
}
const LEAST_M = 1e-6;

const mixed = (a: Vec3, k: number, b: Vec3, l: number): Vec3 => [
  a[0] * k + b[0] * l,
  a[1] * k + b[1] * l,
  a[2] * k + b[2] * l,
];
