import * as portable from '../portable';

/**
 * Pressure lost in a hose: p = f (L / D) rho v^2 / 2 (Darcy-Weisbach), and p = K rho v^2 / 2 at a fitting.
 * f: turbulent f = 0.25 / log10(e / 3.7 + 5.74 / Re^0.9)^2 (Swamee and Jain 1976, within 1.5 % of Colebrook for e of 1e-6 to 1e-2 and
 * Re of 5e3 to 1e8), laminar f = 64 / Re (Hagen-Poiseuille). Between Re 2,000 and 4,000, where nothing is sure, the logarithm of f runs
 * straight in that of Re from one to the other: it has no step, and the loss rises all the way. That rule is our own.
 * Holds for a full round hose and water without air. Leaves out: the first diameters behind an entrance, hose that flattens in a bend.
 */
export interface PipeWater {
  /** Density, kg/m3. */
  readonly densityKgM3: number;
  /** Dynamic viscosity, Pa s. */
  readonly viscosityPaS: number;
}

/** Sea water of 35 g/kg at about 20 degrees Celsius, as hydraulics tables of the trade take it: 1025 kg/m3, 1.08e-3 Pa s. */
export const PIPE_SEA_WATER: PipeWater = { densityKgM3: 1025, viscosityPaS: 1.08e-3 };

/** Roughness of drawn tube and smooth plastic hose in the chart of Moody, metres; from memory. */
export const SMOOTH_HOSE_M = 1.5e-6;

const LAMINAR_TO = 2000;
const TURBULENT_FROM = 4000;

const swameeJain = (reynolds: number, roughness: number): number =>
  0.25 / portable.log10(roughness / 3.7 + 5.74 / reynolds ** 0.9) ** 2;

/** Darcy friction factor. `roughness`: of the wall as a share of the bore. Needs a Reynolds number above 0. */
export function frictionFactor(reynolds: number, roughness: number): number {
  if (!(reynolds > 0)) throw new Error(`frictionFactor: expected a Reynolds number above 0, got ${reynolds}`);
  if (reynolds <= LAMINAR_TO) return 64 / reynolds;
  if (reynolds >= TURBULENT_FROM) return swameeJain(reynolds, roughness);
  const share = portable.log(reynolds / LAMINAR_TO) / portable.log(TURBULENT_FROM / LAMINAR_TO);
  const [low, high] = [64 / LAMINAR_TO, swameeJain(TURBULENT_FROM, roughness)];
  return low * (high / low) ** share;
}

/** Mean speed in a bore, m/s, of a flow in litres a minute. */
export const speedOf = (flowLMin: number, boreM: number): number => flowLMin / 60_000 / ((Math.PI / 4) * boreM * boreM);

/** Pressure that a flow loses in one metre of hose, Pa/m. No flow loses none. */
export function lossPerMetre(flowLMin: number, boreM: number, water: PipeWater, roughnessM = SMOOTH_HOSE_M): number {
  if (flowLMin === 0) return 0;
  const speed = speedOf(flowLMin, boreM);
  const reynolds = (water.densityKgM3 * speed * boreM) / water.viscosityPaS;
  return (frictionFactor(reynolds, roughnessM / boreM) / boreM) * dynamicPressure(flowLMin, boreM, water);
}

/** rho v^2 / 2, Pa: what a fitting of K = 1 loses. */
export const dynamicPressure = (flowLMin: number, boreM: number, water: PipeWater): number =>
  (water.densityKgM3 * speedOf(flowLMin, boreM) ** 2) / 2;
