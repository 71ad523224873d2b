import { ampacity, gaugeWithin, LOWEST_RATING, ratingWithin } from '../base/formulas/ampacity';
import { CIRCULAR_MIL_MM2, circularMilsNeeded } from '../base/formulas/conductor';
import { distance, pointInBoat } from '../base/vec';
import { LINE_KINDS, lineKindOf } from './catalogue/line-kinds';
import { thingOf } from './check-references';
import { poseOf } from './edits';
import { mediaAgree } from './notes';
import type { Boat, LineKind, Medium, Port, Thing } from './schema/boat';

/** Which two ports a line may join, which way it flows, and what it is best made of. */

export interface PortAt {
  readonly thing: string;
  readonly port: string;
}

export type JoinRefusal =
  | { readonly why: 'samePort' | 'sameThing' | 'bothGive' | 'bothTake' }
  | { readonly why: 'media'; readonly from: Medium; readonly to: Medium }
  /** A hose port takes one hose. */
  | { readonly why: 'taken'; readonly at: PortAt; readonly line: string }
  | { readonly why: 'noSuchPort'; readonly at: PortAt };

export interface Join {
  readonly from: PortAt;
  readonly to: PortAt;
  readonly medium: Medium;
  readonly kind: string;
  /** Amperes that the cable was chosen for; null for what is no power cable, and where nothing says how much it carries. */
  readonly currentA: number | null;
}

export type Joined = { readonly ok: true; readonly join: Join } | { readonly ok: false; readonly refusal: JoinRefusal };

interface End extends PortAt {
  readonly own: Thing;
  readonly data: Port;
}

/** What a line between two ports would be, or why there can be none. `moving`: the line that is led elsewhere: its own end is free. */
export function joinOf(
  boat: Boat,
  arrangementId: string | null,
  a: PortAt,
  b: PortAt,
  moving: string | null = null,
): Joined {
  const [first, second] = [endOf(boat, a), endOf(boat, b)];
  if (!first) return refused({ why: 'noSuchPort', at: a });
  if (!second) return refused({ why: 'noSuchPort', at: b });
  if (a.thing === b.thing) return refused({ why: a.port === b.port ? 'samePort' : 'sameThing' });
  const [from, to] = flowsFrom(first, second) ? [first, second] : [second, first];
  const [given, taken] = [from.data.medium, to.data.medium];
  if (given && taken && !mediaAgree(given, taken)) return refused({ why: 'media', from: given, to: taken });
  if (gives(from) && gives(to)) return refused({ why: 'bothGive' });
  if (takes(from) && takes(to)) return refused({ why: 'bothTake' });
  const medium = mediumOf(boat, from, to);
  for (const end of [from, to]) {
    const line = isElectric(medium) ? undefined : lineOn(boat, end, moving);
    if (line !== undefined) return refused({ why: 'taken', at: { thing: end.thing, port: end.port }, line });
  }
  const current = medium === 'dcPower' ? currentOf(from.own, to.own) : null;
  return {
    ok: true,
    join: {
      from: { thing: from.thing, port: from.port },
      to: { thing: to.thing, port: to.port },
      medium,
      kind: medium === 'dcPower' ? cableFor(boat, arrangementId, from, to, current) : kindFor(boat, from, to, medium),
      currentA: current,
    },
  };
}

const refused = (refusal: JoinRefusal): Joined => ({ ok: false, refusal });

function endOf(boat: Boat, at: PortAt): End | null {
  const own = thingOf(boat, at.thing);
  const data = own && Object.hasOwn(own.ports, at.port) ? own.ports[at.port] : undefined;
  return own && data ? { ...at, own, data } : null;
}

const isElectric = (medium: Medium): boolean => medium === 'dcPower' || medium === 'signal';

/** Water comes out of it: so it says, or it is an intake, or a source of current. */
function gives({ own, data }: End): boolean {
  if (data.role !== 'both') return data.role === 'out';
  if (data.medium === 'dcPower') return own.electric?.sourceV !== undefined;
  return own.opensToSea?.use === 'intake';
}

function takes({ own, data }: End): boolean {
  if (data.role !== 'both') return data.role === 'in';
  if (data.medium === 'dcPower') return own.electric?.drawA !== undefined && own.electric.sourceV === undefined;
  return own.opensToSea?.use === 'outlet';
}

const flowsFrom = (a: End, b: End): boolean => !(takes(a) || gives(b)) || (gives(a) && takes(b));

/** What comes from where it flows; a gauge tube whatever it is tapped from; of unsaid ports what other lines there carry. */
function mediumOf(boat: Boat, from: End, to: End): Medium {
  const media = [from.data.medium, to.data.medium];
  if (media.includes('gauge')) return 'gauge';
  if (media.includes('signal')) return 'signal';
  const near = Object.values(boat.lines).find(({ from: a, to: b }) => [a.thing, b.thing].includes(from.thing));
  return from.data.medium ?? to.data.medium ?? near?.medium ?? 'seaWater';
}

const lineOn = (boat: Boat, { thing, port }: PortAt, except: string | null): string | undefined =>
  Object.entries(boat.lines).find(
    ([id, { from, to }]) => id !== except && [from, to].some((end) => end.thing === thing && end.port === port),
  )?.[0];

/** Kinds of the catalogue for each content, the usual one first. */
const USUAL: Readonly<Record<Medium, readonly [usual: string, family: string]>> = {
  seaWater: ['hose-suction-19', 'hose-suction'],
  brine: ['hose-brine-16', 'hose-brine'],
  freshWater: ['hose-fresh-13', 'hose-fresh'],
  product: ['tube-product-6', 'tube-product'],
  gauge: ['tube-gauge-6', 'tube-gauge'],
  dcPower: ['cable-pair-10', 'cable-pair'],
  signal: ['cable-signal', 'cable-signal'],
  fuel: ['hose-fuel-8', 'hose-fuel'],
  waste: ['hose-drain-38', 'hose-drain'],
  air: ['hose-fresh-13', 'hose-fresh'],
};
const PRESSED = ['hose-pressure-10', 'hose-pressure-'] as const;
/** From the membrane's working pressure on, bar, where no data sheet says it. */
const USUAL_BAR = 60;

/** The kind whose bore is nearest to that of the ports, of those that may carry it; of equals the one that the boat uses for it. */
function kindFor(boat: Boat, from: End, to: End, medium: Medium): string {
  const isPressed = [from, to].some(isAtWorkingPressure);
  const leastBar = isPressed ? Math.max(0, ...[from, to].map(({ own }) => own.workingBar ?? USUAL_BAR)) : 0;
  const [usual, family] = isPressed ? PRESSED : USUAL[medium];
  const inUse = Object.values(boat.lines).flatMap((line) => (line.medium === medium ? [line.kind] : []));
  const ids = new Set([usual, ...inUse, ...Object.keys(LINE_KINDS).filter((id) => id.startsWith(family))]);
  const fitting = [...ids].flatMap((id) => {
    const kind = lineKindOf(boat.lineKinds, id);
    const holds =
      kind !== undefined && (isPressed ? (kind.pressureBar ?? 0) >= leastBar : !isHighPressure(kind, medium));
    return kind && holds ? [{ id, kind }] : [];
  });
  const boreM = from.data.boreM ?? to.data.boreM ?? from.own.boreM ?? to.own.boreM;
  const uses = (id: string): number => inUse.filter((one) => one === id).length;
  const rank = (id: string): number => (id === usual ? 0.5 : 0) + uses(id);
  const off = ({ kind }: { readonly kind: LineKind }): number => {
    if (boreM === undefined) return 0;
    const bore = Math.abs((kind.boreM ?? kind.outsideM) - boreM);
    // A tube is pushed into a fitting that is named by its outside.
    return kind.what === 'tube' ? Math.min(bore, Math.abs(kind.outsideM - boreM)) : bore;
  };
  const best = fitting.sort((a, b) => off(a) - off(b) || rank(b.id) - rank(a.id))[0];
  return best?.id ?? usual;
}

/** Between the high-pressure pump, the membrane and what holds its pressure. */
function isAtWorkingPressure({ own, data, port }: End): boolean {
  if (own.kind === 'membrane') return data.medium === 'seaWater' || data.medium === 'brine';
  if (own.kind === 'pumpModule') return data.role === 'out' && data.medium === 'seaWater' && port !== 'bypass';
  return false;
}

/** Hose for a gauge tapping or a membrane is not what low-pressure water asks for. */
const isHighPressure = ({ crimpedEnds, what }: LineKind, medium: Medium): boolean =>
  crimpedEnds && what === 'hose' && medium !== 'gauge';

/** Greatest current that a cable between two things carries: what the consumer draws, at least what a fuse lets through. */
function currentOf(a: Thing, b: Thing): number | null {
  const values = [a, b].flatMap(({ electric }) => [electric?.drawA ?? [], electric?.ratingA ?? []].flat());
  return values.length === 0 ? null : Math.max(...values);
}

/** A run is longer than the way as the crow flies, by about this. */
const DETOUR = 1.5;
const USUAL_V = 12;
/** Share of the voltage that may be lost on the way to a motor. */
const USUAL_DROP = 0.1;

/** The thinnest pair that carries the current and loses no more of the voltage than may be lost over a way half as long again. */
function cableFor(boat: Boat, arrangementId: string | null, from: End, to: End, currentA: number | null): string {
  const [usual, family] = USUAL.dcPower;
  if (currentA === null) {
    const near = Object.values(boat.lines).find(
      ({ medium, from: a, to: b }) =>
        medium === 'dcPower' && [a.thing, b.thing].some((id) => id === from.thing || id === to.thing),
    );
    return near?.kind ?? usual;
  }
  const kinds = Object.entries({ ...LINE_KINDS, ...boat.lineKinds })
    .filter(
      ([id, { what, areaMm2 }]) =>
        what === 'cable' && areaMm2 !== undefined && (id.startsWith(family) || boat.lineKinds[id]),
    )
    .sort(([, a], [, b]) => (a.areaMm2 ?? 0) - (b.areaMm2 ?? 0));
  const lengthM = wayBetween(boat, arrangementId, from, to) * DETOUR;
  const dropV = (from.own.electric?.sourceV ?? USUAL_V) * (to.own.electric?.dropShare ?? USUAL_DROP);
  const leastMm2 = circularMilsNeeded({ currentA, lengthOutAndBackM: 2 * lengthM, dropV }) * CIRCULAR_MIL_MM2;
  const enough = kinds.find(([, { areaMm2 = 0, temperatureC }]) => {
    const gauge = gaugeWithin(areaMm2);
    const ratingC = ratingWithin(temperatureC ?? LOWEST_RATING) ?? LOWEST_RATING;
    const carried = gauge === null ? null : ampacity({ gauge, ratingC, engineSpace: false });
    return areaMm2 >= leastMm2 && carried !== null && carried >= currentA;
  });
  return enough?.[0] ?? kinds.at(-1)?.[0] ?? usual;
}

function wayBetween(boat: Boat, arrangementId: string | null, from: End, to: End): number {
  const [a, b] = [from, to].map(({ thing, data }) => {
    const pose = poseOf(boat, arrangementId, thing);
    return pose ? pointInBoat(pose, data.at) : null;
  });
  return a && b ? distance(a, b) : 0;
}
