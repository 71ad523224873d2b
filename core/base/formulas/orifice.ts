import { frictionFactor, PIPE_SEA_WATER, SMOOTH_HOSE_M } from './pipe-flow';

/** Water that comes in through a hole or a torn hose, and how fast it fills what it runs into. */

const GRAVITY_MS2 = 9.80665;

/**
 * Discharge coefficient of an open through-hull without its hose, a tube two to three bores long: the share of A sqrt(2 g h) that really
 * comes through. A sharp-edged hole has 0.61; tables of the trade take 1, a quarter too much. A verdict names the one that it used.
 */
export const SHORT_TUBE = { cd: 0.8, source: 'orifice-tables' } as const;

/** Losses of a hose that is torn off at its far end, in velocity heads: edge at the hull, open ball valve, jet at the end. From memory. */
const TORN_HOSE_K = 0.5 + 0.08 + 1;
/** Steps in which speed and friction settle on each other: each shrinks what is left tenfold. */
const SETTLING_STEPS = 20;

/** Bore area, m2. */
const boreArea = (diameterM: number): number => (Math.PI / 4) * diameterM * diameterM;

/**
 * Flow through an opening in litres a minute: Q = Cd A sqrt(2 g h).
 * A: area of diameterM, metres; h headM: depth below the sea, metres, above the water inside. Torricelli with a coefficient (derived).
 * Leaves out: the speed of the boat, and air that is locked in.
 */
export const orificeFlow = (input: { headM: number; diameterM: number; cd: number }): number =>
  input.cd * boreArea(input.diameterM) * Math.sqrt(2 * GRAVITY_MS2 * input.headM) * 60_000;

/**
 * Flow out of a hose that leads from an opening in the hull and is torn off at its far end, in litres a minute:
 * v = sqrt(2 g h / (K + f L / D)), with f by `frictionFactor`.
 * headM: depth of the torn end below the sea; boreM D; lengthM L. Leaves out bends and strainers: it errs to more water.
 */
export function tornHoseFlow({ headM, boreM, lengthM }: { headM: number; boreM: number; lengthM: number }): number {
  if (headM <= 0) return 0;
  const speedAt = (friction: number): number =>
    Math.sqrt((2 * GRAVITY_MS2 * headM) / (TORN_HOSE_K + (friction * lengthM) / boreM));
  let speed = speedAt(0.02);
  for (let step = 0; step < SETTLING_STEPS; step += 1) {
    const reynolds = (PIPE_SEA_WATER.densityKgM3 * speed * boreM) / PIPE_SEA_WATER.viscosityPaS;
    speed = speedAt(frictionFactor(reynolds, SMOOTH_HOSE_M / boreM));
  }
  return speed * boreArea(boreM) * 60_000;
}

/**
 * Seconds in which water that drowns its own inlet rises by riseM above it: t = 2 A (sqrt(h) - sqrt(h - z)) / (Cd a sqrt(2 g)), here by the
 * flow at the start, Cd a sqrt(2 g h).
 * A planM2: plan area of what fills; h headM: depth of the inlet below the sea; z riseM: at most h; firstFlowLMin: flow while the inlet
 * is dry. Holds for upright sides and a boat that does not sink deeper. Derived.
 */
export const drownedFillTime = (input: {
  planM2: number;
  headM: number;
  riseM: number;
  firstFlowLMin: number;
}): number =>
  (2 * input.planM2 * Math.sqrt(input.headM) * (Math.sqrt(input.headM) - Math.sqrt(input.headM - input.riseM))) /
  (input.firstFlowLMin / 60_000);
