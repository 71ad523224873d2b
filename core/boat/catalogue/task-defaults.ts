import type { Vec3 } from '../../base/vec';
import type { Service } from '../schema/boat';

export type ServiceTask = Service['task'];
export type ServiceNeed = Service['needs'][number];

/** How a place must be seen. */
export interface SeeNeeds {
  /** Of the disc that must be seen, metres. */
  readonly diameterM: number;
  readonly distanceM: number;
  /** Greatest angle off the direction of the task. */
  readonly angleDeg: number;
  readonly mirrorOk: boolean;
}

/**
 * A tool about the direction of the task. A driver lies along it and turns in the hand; a spanner and a strap lie square to it and swing:
 * `lengthM` is then the radius that they sweep, knuckles included.
 */
export interface ToolNeeds {
  readonly kind: 'driver' | 'spanner' | 'strap';
  readonly lengthM: number;
  readonly headM: number;
  readonly swingDeg: number;
}

/** What is drawn out along the direction of the task; its section is the `acrossM` of the service. */
export interface WithdrawNeeds {
  /** How far it must go, straight, to be out. */
  readonly lengthM: number;
  /** Its own length along the direction. */
  readonly longM: number;
  /** After `dropM` it may be tilted and taken out sideways. */
  readonly tiltOk: boolean;
  readonly dropM: number;
}

/** What is stood below the place (tray, cup) or held above it (funnel). */
export interface VesselNeeds {
  readonly kind: 'funnel' | 'tray' | 'cup';
  readonly heightM: number;
  readonly acrossM: number;
}

/** Everything that a task asks for. Hands at 0, nothing to see and nothing to draw out: only clear space is asked for. */
export interface TaskNeeds {
  readonly see: SeeNeeds | null;
  readonly lamp: boolean;
  readonly hands: 0 | 1 | 2;
  /** Local; null: with two hands each works 75 mm to either side of the place. */
  readonly secondAt: Vec3 | null;
  readonly standOffM: number;
  readonly coneDeg: number;
  readonly tool: ToolNeeds | null;
  readonly withdraw: WithdrawNeeds | null;
  readonly vessels: readonly VesselNeeds[];
  /** Lines that end at the thing are taken off as part of the work. */
  readonly linesOff: boolean;
  /** Held in the hands at the end of it, kilograms; null: the whole thing comes out, and its mass counts. */
  readonly massKg: number | null;
  readonly minutesWork: number;
  /** Null for both: only when something is wrong. */
  readonly intervalH: number | null;
  readonly intervalDays: number | null;
}

type TaskDefault = Omit<TaskNeeds, 'secondAt'>;

const HAND: TaskDefault = {
  see: null,
  lamp: false,
  hands: 1,
  standOffM: 0.06,
  coneDeg: 60,
  tool: null,
  withdraw: null,
  vessels: [],
  linesOff: false,
  massKg: 0,
  minutesWork: 5,
  intervalH: null,
  intervalDays: null,
};

/** Angle off the direction: derived from at least 45 degrees between the line of sight and a face, NUREG-0700 Rev. 2, 11.1.2-5, as quoted. */
const looking = (diameterM: number, distanceM: number, mirrorOk: boolean, angleDeg = 45): SeeNeeds => ({
  diameterM,
  distanceM,
  angleDeg,
  mirrorOk,
});

/** Tools by the word of `needs`. Spanner: 170 mm and 45 mm of knuckles, 60 degrees of an open end; strap: 200 mm, 90 degrees. */
const USUAL_TOOLS: Readonly<Record<ToolNeeds['kind'], ToolNeeds>> = {
  driver: { kind: 'driver', lengthM: 0.15, headM: 0.01, swingDeg: 180 },
  spanner: { kind: 'spanner', lengthM: 0.215, headM: 0.015, swingDeg: 60 },
  strap: { kind: 'strap', lengthM: 0.2, headM: 0.03, swingDeg: 90 },
};

/** Free height and width that a vessel takes. */
const USUAL_VESSELS: Readonly<Record<VesselNeeds['kind'], VesselNeeds>> = {
  funnel: { kind: 'funnel', heightM: 0.15, acrossM: 0.1 },
  tray: { kind: 'tray', heightM: 0.06, acrossM: 0.2 },
  cup: { kind: 'cup', heightM: 0.2, acrossM: 0.09 },
};

const { driver, spanner, strap } = USUAL_TOOLS;
const { funnel, tray, cup } = USUAL_VESSELS;

const out = (lengthM: number, more: Partial<WithdrawNeeds> = {}): WithdrawNeeds => ({
  lengthM,
  longM: lengthM,
  tiltOk: false,
  dropM: 0,
  ...more,
});

/** Of a housing: 60 mm down and then tilted, or 300 mm straight. */
const BOWL = out(0.3, { longM: 0.25, tiltOk: true, dropM: 0.06 });

/**
 * What each task asks for where its record does not say. Common practice of the trade and from memory, unverified: sizes, angles, minutes
 * and intervals are to be replaced by what the maker's book and the owner's watch say.
 */
export const TASK_DEFAULTS: Readonly<Record<ServiceTask, TaskDefault>> = {
  bowlDrop: {
    ...HAND,
    hands: 2,
    tool: strap,
    withdraw: BOWL,
    vessels: [tray],
    massKg: 2,
    minutesWork: 10,
    intervalH: 100,
  },
  carbon: {
    ...HAND,
    hands: 2,
    tool: strap,
    withdraw: BOWL,
    vessels: [tray],
    massKg: 2,
    minutesWork: 10,
    intervalDays: 180,
  },
  basket: {
    ...HAND,
    see: looking(0.08, 0.7, false, 60),
    withdraw: out(0.15),
    massKg: 0.5,
    minutesWork: 3,
    intervalH: 20,
  },
  lid: { ...HAND, withdraw: out(0.05), massKg: 0.5, minutesWork: 3 },
  impellerCover: {
    ...HAND,
    see: looking(0.06, 0.7, false, 60),
    tool: { ...driver, lengthM: 0.1 },
    minutesWork: 20,
    intervalH: 500,
  },
  oilGlass: { ...HAND, see: looking(0.02, 0.5, true), lamp: true, hands: 0, minutesWork: 1, intervalH: 20 },
  oilFill: { ...HAND, see: looking(0.04, 0.7, true, 60), vessels: [funnel], minutesWork: 5, intervalH: 500 },
  oilDrain: { ...HAND, tool: spanner, vessels: [tray], minutesWork: 15, intervalH: 500 },
  pumpHead: {
    ...HAND,
    hands: 2,
    linesOff: true,
    see: looking(0.1, 0.7, false, 60),
    tool: driver,
    massKg: 2,
    minutesWork: 90,
  },
  elementWithdrawal: {
    ...HAND,
    hands: 2,
    linesOff: true,
    withdraw: out(1),
    massKg: 3,
    minutesWork: 45,
    intervalDays: 1460,
  },
  caps: { ...HAND, hands: 2, linesOff: true, standOffM: 0.08, massKg: 1, minutesWork: 15, intervalDays: 1460 },
  handle: { ...HAND, minutesWork: 0.5, intervalDays: 7 },
  breaker: { ...HAND, see: looking(0.02, 0.7, false), minutesWork: 0.5, intervalDays: 7 },
  gauge: { ...HAND, hands: 0, see: looking(0.06, 0.71, false), minutesWork: 0.5, intervalDays: 7 },
  panelFront: { ...HAND, see: looking(0.1, 0.71, false), minutesWork: 0.5, intervalDays: 7 },
  panelBack: { ...HAND, see: looking(0.08, 0.7, true, 60), tool: spanner, minutesWork: 20 },
  tapCup: { ...HAND, vessels: [cup], minutesWork: 2, intervalDays: 7 },
  liftOut: { ...HAND, hands: 2, linesOff: true, withdraw: out(0.25), massKg: null, minutesWork: 30 },
  air: { ...HAND, hands: 0, minutesWork: 0 },
  belt: {
    ...HAND,
    hands: 2,
    see: looking(0.1, 0.7, false, 60),
    tool: spanner,
    minutesWork: 20,
    intervalH: 150,
  },
  clamps: { ...HAND, tool: driver, minutesWork: 3, intervalDays: 365 },
  nut: { ...HAND, tool: spanner, minutesWork: 5 },
  seals: { ...HAND, hands: 2, tool: spanner, minutesWork: 60, intervalDays: 730 },
  anode: { ...HAND, hands: 2, tool: spanner, withdraw: out(0.3), massKg: 0.5, minutesWork: 20, intervalDays: 365 },
  stuffingBox: {
    ...HAND,
    hands: 2,
    see: looking(0.08, 0.7, true, 60),
    lamp: true,
    tool: spanner,
    minutesWork: 15,
    intervalH: 100,
  },
  oilFilter: {
    ...HAND,
    tool: strap,
    withdraw: out(0.12),
    vessels: [tray],
    massKg: 1,
    minutesWork: 20,
    intervalH: 150,
  },
  fuelFilter: {
    ...HAND,
    see: looking(0.06, 0.7, true, 60),
    tool: strap,
    withdraw: out(0.12),
    vessels: [tray],
    massKg: 1,
    minutesWork: 25,
    intervalH: 200,
  },
  dipstick: { ...HAND, withdraw: out(0.4), minutesWork: 2, intervalH: 10 },
  tankLid: { ...HAND, hands: 2, see: looking(0.2, 0.7, false, 60), tool: spanner, minutesWork: 60, intervalDays: 1095 },
  batteryPosts: {
    ...HAND,
    hands: 2,
    linesOff: true,
    see: looking(0.03, 0.7, false, 60),
    tool: spanner,
    minutesWork: 10,
    intervalDays: 180,
  },
  emergencyTiller: {
    ...HAND,
    hands: 2,
    withdraw: out(0.4, { longM: 0.05 }),
    massKg: 5,
    minutesWork: 5,
    intervalDays: 180,
  },
  keelBolts: {
    ...HAND,
    hands: 2,
    see: looking(0.05, 0.7, true, 60),
    lamp: true,
    tool: { ...spanner, lengthM: 0.4, headM: 0.04, swingDeg: 30 },
    minutesWork: 15,
    intervalDays: 365,
  },
  limbers: { ...HAND, see: looking(0.03, 0.7, true, 60), lamp: true, minutesWork: 5, intervalDays: 90 },
  other: { ...HAND },
};

/**
 * What a task of a thing asks for: its record, and as usual for the task what the record leaves out. Words in `needs` decide on seeing,
 * hands, tools and vessels where there are any; `see`, given, asks to see in any case.
 */
export function needsOf(service: Service): TaskNeeds {
  const usual = TASK_DEFAULTS[service.task];
  const { needs } = service;
  const has = (need: ServiceNeed): boolean => needs.includes(need);
  const says = needs.length > 0;
  const mustSee = service.see !== undefined || (says ? has('see') : usual.see !== null);
  return {
    see: mustSee ? given({ ...(usual.see ?? looking(0.05, 0.7, false)) }, service.see) : null,
    lamp: says ? has('light') : usual.lamp,
    hands: says ? handsOf(has) : usual.hands,
    secondAt: service.secondAt ?? null,
    standOffM: service.standOffM ?? usual.standOffM,
    coneDeg: service.coneDeg ?? usual.coneDeg,
    tool: toolOf(service, says ? has : null, usual.tool),
    withdraw: withdrawOf(service, usual.withdraw),
    vessels: (says ? VESSELS.filter(has).map((kind) => USUAL_VESSELS[kind]) : usual.vessels).map((vessel) =>
      given(vessel, service.below),
    ),
    linesOff: service.linesOff ?? usual.linesOff,
    massKg: service.massKg ?? usual.massKg,
    minutesWork: service.minutes ?? usual.minutesWork,
    ...intervalsOf(service, usual),
  };
}

const VESSELS = ['funnel', 'tray', 'cup'] as const;
const TOOLS = ['strap', 'spanner', 'driver'] as const;

/** Who holds a tool or fills up has a hand at it; who only looks has none. */
function handsOf(has: (need: ServiceNeed) => boolean): 0 | 1 | 2 {
  if (has('twoHands')) return 2;
  return has('hand') || TOOLS.some(has) || VESSELS.some(has) ? 1 : 0;
}

function toolOf(
  { tool, swingM }: Service,
  has: ((need: ServiceNeed) => boolean) | null,
  usual: ToolNeeds | null,
): ToolNeeds | null {
  const kind = has ? TOOLS.find(has) : usual?.kind;
  if (kind === undefined) return null;
  const own = given(usual?.kind === kind ? usual : USUAL_TOOLS[kind], tool);
  return kind !== 'driver' && swingM !== undefined && swingM > 0 ? { ...own, lengthM: swingM } : own;
}

function withdrawOf(service: Service, usual: WithdrawNeeds | null): WithdrawNeeds | null {
  const { clearM, withdrawM, longM, tiltAfterM } = service;
  if (usual === null && withdrawM === undefined) return null;
  const tiltOk = service.tiltOk ?? usual?.tiltOk ?? false;
  const clear = clearM > 0 ? clearM : undefined;
  const lengthM = withdrawM ?? (tiltOk ? undefined : clear) ?? usual?.lengthM ?? 0;
  return {
    lengthM,
    // a bowl is as long as it is, however far it is drawn; an element as far as it is drawn
    longM: longM ?? (usual && usual.longM !== usual.lengthM ? usual.longM : lengthM),
    tiltOk,
    dropM: tiltOk ? (tiltAfterM ?? clear ?? usual?.dropM ?? 0) : 0,
  };
}

/** Either interval, given, stands for both; 0 and 0 is never. */
function intervalsOf(
  { intervalH, intervalDays }: Service,
  usual: TaskDefault,
): Pick<TaskNeeds, 'intervalH' | 'intervalDays'> {
  if (intervalH === undefined && intervalDays === undefined)
    return { intervalH: usual.intervalH, intervalDays: usual.intervalDays };
  return { intervalH: intervalH || null, intervalDays: intervalDays || null };
}

/** The usual values with those that a record gives in their place. */
function given<T extends object>(usual: T, own: Partial<{ [K in keyof T]: T[K] | undefined }> | undefined): T {
  return {
    ...usual,
    ...Object.fromEntries(Object.entries(own ?? {}).filter(([key, value]) => key in usual && value !== undefined)),
  };
}
