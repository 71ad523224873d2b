/**
 * What a run should keep where it can, and what it pays for not keeping it: metres of hose for each metre of run, never less
 * than nothing, so that bounds of length and of cost stay bounds. A weight over the distance in which it fades stays below 15, so that a
 * metre of hose that leaves a zone gains less than a third of what a collision costs: no wish ever buys a way into something.
 */

/** What runs keep away from. */
export type ZoneKind = 'electrics' | 'heat' | 'compass' | 'feet' | 'stowage';

/** What a line carries, as others see it. */
export type Carries = 'water' | 'power' | 'signal' | 'other';

export interface RunWishes {
  readonly carries: Carries;
  /** Price of a metre in the middle of a zone, by what it is about; what is not named costs nothing. */
  readonly zones: Readonly<Partial<Record<ZoneKind, number>>>;
  /** Hottest that the hose stands, degrees Celsius: what is no hotter is no zone to it. */
  readonly standsC: number;
  /** Things at its own ends: their zones cannot be left. */
  readonly ownThings: readonly string[];
  /** Price of a metre that hangs too far from everything that a clip could hold it to. */
  readonly surface: number;
  /** Price of a metre that touches a run of the other kind: power beside signal. */
  readonly apart: number;
  /** Price of a metre deep in a space that a service task asks for. */
  readonly service: number;
  /** Price of each metre of height that a drain lacks; 0 where nothing drains. */
  readonly fall: number;
  /** Height above the water that the run must reach somewhere, and the price of each metre that is missing. */
  readonly rise: { readonly toM: number; readonly price: number } | null;
}

/** Water that falls on open terminals corrodes or shorts them. Drip line of 300 mm: common practice, no source. */
export const OVER_ELECTRICS = 2;
export const DRIP_M = 0.3;
/** Soft hose ages, and pipe creeps, beside hot metal. Common practice, no source. */
export const NEAR_HEAT = 1;
/** Nothing hot fades in less than this, or a wish would push as hard as a wall. */
export const LEAST_REACH_M = 0.1;
/** 25 A on one conductor at 0.5 m make 10 microtesla, half of the horizontal field (Biot-Savart): about 1 m is kept. */
export const NEAR_COMPASS = 0.5;
export const COMPASS_M = 1;
/** Switched currents are heard in signal cables laid along them. 100 mm apart: common practice, no source. */
export const BESIDE_OTHER = 0.4;
export const APART_M = 0.1;
/** Prices fade out this far beyond the distance that is judged: ending at it, they would leave a run just within it. */
export const FADE_M = 0.02;
/** What hangs in the air is held by nothing: within this of a surface a clip or a short bracket holds. Common practice, no source. */
export const HANGING = 0.3;
export const CLIP_REACH_M = 0.05;
/** Farther than this from every surface no batten or stand-off bracket holds it either, and it costs no more. Common practice, no source. */
export const HANGING_FULL_M = 0.2;
/** A hose in the room of a hand or a bowl is unclipped at every service, if it does not stop it. Common practice, no source. */
export const IN_SERVICE_SPACE = 0.5;
export const SERVICE_FULL_M = 0.1;
/** What is thrown in and dragged out tears at hoses; feet bend them. Common practice, no source. */
export const IN_STOWAGE = 0.3;
export const UNDER_FEET = 1;
/** A drain that does not fall holds water. 2 in 100 is usual for small waste pipes: common practice, no source. */
export const LEAST_FALL = 0.02;
export const LACKING_FALL = 3;
/** Above 2, since a metre of height is two metres of hose: up and down again. */
export const LACKING_RISE = 5;

/** Turns every preference off. */
export const NO_WISHES: RunWishes = {
  carries: 'other',
  zones: {},
  standsC: 0,
  ownThings: [],
  surface: 0,
  apart: 0,
  service: 0,
  fall: 0,
  rise: null,
};

/** What a run costs, metres of hose, by what it is paid for; the fields sum to the cost. */
export interface RunCosts {
  readonly lengthM: number;
  /** Holes to be drilled. */
  readonly holesM: number;
  /** Crests of a suction hose. */
  readonly suctionM: number;
  /** Water above or beside open electrics. */
  readonly electricsM: number;
  readonly heatM: number;
  readonly compassM: number;
  /** Power beside signal. */
  readonly apartM: number;
  /** Stretches that no clip can hold. */
  readonly surfaceM: number;
  /** Drains that do not fall enough. */
  readonly fallM: number;
  /** Height that a run must rise to and does not. */
  readonly riseM: number;
  readonly stowageM: number;
  readonly feetM: number;
  readonly serviceM: number;
}

export const COST_FIELDS = [
  'lengthM',
  'holesM',
  'suctionM',
  'electricsM',
  'heatM',
  'compassM',
  'apartM',
  'surfaceM',
  'fallM',
  'riseM',
  'stowageM',
  'feetM',
  'serviceM',
] as const satisfies readonly (keyof RunCosts)[];

export const costOf = (costs: RunCosts): number => COST_FIELDS.reduce((sum, field) => sum + costs[field], 0);
