import type { Vec3 } from '@core/base/vec';

/** What both sides read: the product's test and the script that tabulates shortest ways. Metres. */
export interface SteinerScene {
  readonly id: string;
  /** In a row along x, each beginning where the one before ends: where their faces meet they are open. */
  readonly rooms: readonly SteinerRoom[];
  readonly boxes: readonly SteinerBox[];
  readonly from: Vec3;
  readonly to: Vec3;
}
export interface SteinerRoom {
  readonly low: Vec3;
  readonly high: Vec3;
}
export interface SteinerBox {
  readonly centre: Vec3;
  readonly half: Vec3;
  /** About z. */
  readonly yawDeg: number;
}

/** Shortest way of a point by marks on edges, see shortest.py. */
export interface SteinerAnswer {
  readonly id: string;
  /** Length of the shortest path of the graph: an upper bound of the shortest way of a point. */
  readonly lengthM: number;
  /** Its corners, ends included. */
  readonly path: readonly Vec3[];
  /** Length of the shortest path of the graph whose sight lines may pass through a rind of every box. */
  readonly relaxedM: number;
  /** How much the marks can have made that longer than the true shortest way. */
  readonly slackM: number;
}
