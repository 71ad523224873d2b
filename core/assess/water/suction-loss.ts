import { dynamicPressure, lossPerMetre, PIPE_SEA_WATER } from '../../base/formulas/pipe-flow';
import { angleBetween } from '../../base/vec';
import type { Thing } from '../../boat/schema/boat';
import { arcSweep } from '../../runs/routing/prims';
import type { Prim } from '../../runs/routing/types';

/** One part of what the water loses on its way, bar. */
export interface Loss {
  readonly id: string;
  readonly what: 'entrance' | 'hose' | 'bends' | 'fitting' | 'device';
  readonly cleanBar: number;
  readonly dirtyBar: number;
  /** The figure is typical, not of the data sheet. */
  readonly isTypical: boolean;
}

const PA_PER_BAR = 1e5;

/**
 * Loss coefficients at the bore of the hose. Entrance of a sharp edge 0.5 (handbooks agree from 0.50 to 0.57). Fittings as multiples of the
 * friction factor of 3/4 in pipe in full turbulence, 0.0237: ball valve 3, tee straight through 20, tee through its branch 60; the multiples
 * from memory of the Crane tables, which other handbooks put up to 60 % higher. Bend of 90 degrees and eight bores: 14.
 */
const TURBULENT = 0.0237;
export const LOSS_K = {
  entrance: 0.5,
  ball: 3 * TURBULENT,
  through: 20 * TURBULENT,
  branch: 60 * TURBULENT,
  bend: 14 * TURBULENT,
} as const;

/** Typical of what has no figure: a cartridge by the flow, a strainer at 8 L/min; twice that when dirty. From memory. */
const TYPICAL = { cartridgeBarPerLMin: 0.002, strainerBar: 0.005, strainerAtLMin: 8, dirty: 2 } as const;

const CARTRIDGES: ReadonlySet<string> = new Set(['filter', 'carbonFilter']);

/** What a thing on the way takes, bar; null for what takes nothing. `turn`: angle between inlet and outlet, radians, 0 straight through. */
export function deviceLoss(id: string, thing: Thing, flowLMin: number, boreM: number, turn: number): Loss | null {
  const given = thing.pressureLoss;
  if (given) {
    const law = given.law ?? (CARTRIDGES.has(thing.kind) ? 'linear' : 'quadratic');
    const share = (flowLMin / given.atLMin) ** (law === 'linear' ? 1 : 2);
    const cleanBar = given.cleanBar * share;
    return { id, what: 'device', cleanBar, dirtyBar: (given.dirtyBar ?? given.cleanBar) * share, isTypical: false };
  }
  if (CARTRIDGES.has(thing.kind)) {
    const cleanBar = TYPICAL.cartridgeBarPerLMin * flowLMin;
    return { id, what: 'device', cleanBar, dirtyBar: TYPICAL.dirty * cleanBar, isTypical: true };
  }
  if (thing.kind === 'strainer') {
    const cleanBar = TYPICAL.strainerBar * (flowLMin / TYPICAL.strainerAtLMin) ** 2;
    return { id, what: 'device', cleanBar, dirtyBar: TYPICAL.dirty * cleanBar, isTypical: true };
  }
  const k = fittingK(thing, turn);
  if (k === 0) return null;
  const lost = (k * dynamicPressure(flowLMin, thing.boreM ?? boreM, PIPE_SEA_WATER)) / PA_PER_BAR;
  return { id, what: 'fitting', cleanBar: lost, dirtyBar: lost, isTypical: false };
}

function fittingK(thing: Thing, turn: number): number {
  if (thing.kind === 'tee' || thing.valve?.kind === 'threeWay' || thing.kind === 'serviceValve')
    return turn > Math.PI / 4 ? LOSS_K.branch : LOSS_K.through;
  return thing.kind === 'seacock' || thing.valve ? LOSS_K.ball : 0;
}

/** Angle by which the water is turned from one port to another of a thing; 0 straight through. */
export function turnBetween(thing: Thing, from: string, to: string): number {
  const [a, b] = [thing.ports[from]?.direction, thing.ports[to]?.direction];
  return a && b ? Math.PI - angleBetween(a, b) : 0;
}

/** Friction along a hose and in its bends, bar. */
export function hoseLosses(
  id: string,
  prims: readonly Prim[],
  lengthM: number,
  boreM: number,
  flowLMin: number,
): Loss[] {
  const friction = (lossPerMetre(flowLMin, boreM, PIPE_SEA_WATER) * lengthM) / PA_PER_BAR;
  const turned = prims.reduce((sum, prim) => sum + (prim.kind === 'arc' ? arcSweep(prim) : 0), 0);
  const bends =
    (LOSS_K.bend * (turned / (Math.PI / 2)) * dynamicPressure(flowLMin, boreM, PIPE_SEA_WATER)) / PA_PER_BAR;
  const alike = (what: 'hose' | 'bends', lost: number): Loss => ({
    id,
    what,
    cleanBar: lost,
    dirtyBar: lost,
    isTypical: false,
  });
  return bends > 0 ? [alike('hose', friction), alike('bends', bends)] : [alike('hose', friction)];
}

/** What the water loses where it enters the hole in the hull: K of the dynamic pressure in its bore (metres; flow in litres a minute). */
export function entranceLoss(id: string, boreM: number, flowLMin: number): Loss {
  const lost = (LOSS_K.entrance * dynamicPressure(flowLMin, boreM, PIPE_SEA_WATER)) / PA_PER_BAR;
  return { id, what: 'entrance', cleanBar: lost, dirtyBar: lost, isTypical: false };
}

/** Gravity, m/s2, by definition. */
const G = 9.80665;

/** Pressure of one metre of sea water, bar. */
export const BAR_PER_METRE = (PIPE_SEA_WATER.densityKgM3 * G) / PA_PER_BAR;

/** Standard air pressure, Pa. */
const AIR_PA = 101_325;
/** Vapour pressure of sea water at 30 degrees Celsius, Pa: 4,246 of fresh water (steam tables, from memory), less 2 % for the salt. */
const VAPOUR_PA = 0.98 * 4246;

/** Net positive suction head at a pump that stands `suctionBar` below the air's pressure, metres, in warm water. */
export const suctionHead = (suctionBar: number): number =>
  (AIR_PA - VAPOUR_PA - suctionBar * PA_PER_BAR) / (PIPE_SEA_WATER.densityKgM3 * G);
