/** Places in the boat that runs keep away from where they can. */
import { byId } from '../../../base/order';
import type { Pose, Vec3 } from '../../../base/vec';
import type { Compartment, StandingPlace, Thing } from '../../../boat/schema/boat';
import type { Cell, Layout } from '../../../shape/layout/types';
import type { Solid } from '../../../shape/space/solids';
import { solidBounds, thingSolids } from '../../../shape/space/things';
import { COMPASS_M, DRIP_M, FADE_M, LEAST_REACH_M, type ZoneKind } from './wishes';

export interface WishZone {
  readonly id: string;
  readonly kind: ZoneKind;
  /** Thing, standing place or compartment. */
  readonly owner: string;
  readonly label: string;
  /** Null: the whole compartment. */
  readonly solid: Solid | null;
  /** Where the zone ends: metres from the solid. */
  readonly reachM: number;
  /** Distance that must be kept; a zone may fade beyond that. */
  readonly keepM: number;
  /** False where nobody says whether it is one: runs do not pay for it, and nothing can be told of them. */
  readonly isKnown: boolean;
  /** Of what is hot: degrees Celsius. */
  readonly heatC: number;
  /** Bounds of the zone with its reach. */
  readonly low: Vec3;
  readonly high: Vec3;
  /** Cells that it counts in. */
  readonly cells: readonly number[];
}

/** Electrics that are open to water unless somebody says otherwise. */
const OPEN_KINDS: ReadonlySet<string> = new Set(['battery', 'inverterCharger', 'dcPanel', 'fuse', 'breaker', 'busbar']);

/** Whether water from above gets at its terminals; null where nobody says. */
export function isOpenToWater({ kind, electric }: Pick<Thing, 'kind' | 'electric'>): boolean | null {
  if (electric?.dripProof) return electric.dripProof === 'open';
  if (OPEN_KINDS.has(kind) || electric?.brushed) return true;
  return electric?.drawA === undefined ? false : null;
}

/** Hot things: how hot their outside gets, degrees Celsius, and how far that is felt. Common practice, no source. */
const HOT: Readonly<Record<string, { readonly heatC: number; readonly reachM: number }>> = {
  engine: { heatC: 90, reachM: 0.15 },
  exhaust: { heatC: 100, reachM: 0.15 },
  waterLock: { heatC: 70, reachM: 0.15 },
  waterHeater: { heatC: 80, reachM: 0.05 },
};
const HOT_BY_WORD_C = 90;

/** How hot a thing gets and how far that is felt; null for what is not hot. */
function heatOf({ kind, zones }: Pick<Thing, 'kind' | 'zones'>): { heatC: number; reachM: number } | null {
  const said = Object.values(zones ?? {}).filter((zone) => zone.kind === 'hot');
  const usual = Object.hasOwn(HOT, kind) ? HOT[kind] : undefined;
  if (said.length === 0) return usual ?? null;
  return { heatC: usual?.heatC ?? HOT_BY_WORD_C, reachM: Math.max(...said.map(({ radiusM }) => radiusM)) };
}

/** How far cables keep from a compass or another thing that a field disturbs; null for what none disturbs. */
function magneticReach({ kind, zones }: Pick<Thing, 'kind' | 'zones'>): number | null {
  const said = Object.values(zones ?? {}).filter((zone) => zone.kind === 'magnetic');
  if (said.length > 0) return Math.max(...said.map(({ radiusM }) => radiusM));
  return kind === 'compass' ? COMPASS_M : null;
}

/** Higher than any boat. */
const SKY_M = 50;

/** Zones about one thing. Drips and heat stay in its compartment; a magnetic field does not. */
export function zonesOfThing(id: string, thing: Thing, pose: Pose, layout: Layout): readonly WishZone[] {
  const open = isOpenToWater(thing);
  const heat = heatOf(thing);
  const magneticM = magneticReach(thing);
  if (open === false && !heat && magneticM === null) return [];
  const solid = thingSolids(id, { ...thing, soft: false } as Thing, pose).find(({ layer }) => layer === 'furnishing');
  if (!solid) return [];
  const { low, high } = solidBounds(solid);
  const home = layout.compartmentAt(pose.at);
  const zones: WishZone[] = [];
  const put = (kind: ZoneKind, keepM: number, heatC: number, isHere: (cell: Cell) => boolean): void => {
    const isColumn = kind === 'electrics';
    const reachM = Math.max(LEAST_REACH_M, kind === 'heat' ? keepM + FADE_M : keepM);
    const least: Vec3 = [low[0] - reachM, low[1] - reachM, low[2] - (isColumn ? 0 : reachM)];
    const most: Vec3 = [high[0] + reachM, high[1] + reachM, high[2] + (isColumn ? SKY_M : reachM)];
    const cells = layout.cells.filter((cell) => isHere(cell) && meets(cell, least, most)).map(({ index }) => index);
    if (cells.length === 0) return;
    zones.push({
      id: `${id}/${kind}`,
      kind,
      owner: id,
      label: thing.name,
      solid,
      reachM,
      keepM,
      isKnown: kind !== 'electrics' || open === true,
      heatC,
      low: least,
      high: most,
      cells,
    });
  };
  const isAtHome = (cell: Cell): boolean => cell.compartment === home;
  if (open !== false) put('electrics', DRIP_M, 0, isAtHome);
  if (heat) put('heat', heat.reachM, heat.heatC, isAtHome);
  if (magneticM !== null) put('compass', magneticM, 0, () => true);
  return zones;
}

const meets = (cell: Cell, low: Vec3, high: Vec3): boolean =>
  [0, 1, 2].every(
    (k) => (cell.low[k] as number) <= (high[k] as number) && (cell.high[k] as number) >= (low[k] as number),
  );

/** Where a person's feet, knees or hips are: half sides, metres. Common practice, no source. */
const FEET_HALF: Vec3 = [0.2, 0.2, 0.1];

/** Zones that compartments and standing places give. */
export function zonesOfRooms(
  compartments: Readonly<Record<string, Compartment>>,
  places: Readonly<Record<string, StandingPlace>>,
  layout: Layout,
): readonly WishZone[] {
  const zones: WishZone[] = [];
  for (const [id, { name, stowage }] of Object.entries(compartments)) {
    if (!stowage) continue;
    const cells = (layout.cellsOf[id] ?? []).map((index) => layout.cells[index] as Cell);
    if (cells.length === 0) continue;
    const bound = (k: 0 | 1 | 2, pick: (...values: number[]) => number, side: 'low' | 'high'): number =>
      pick(...cells.map((cell) => cell[side][k]));
    zones.push({
      id: `${id}/stowage`,
      kind: 'stowage',
      owner: id,
      label: name,
      solid: null,
      reachM: 0,
      keepM: 0,
      isKnown: true,
      heatC: 0,
      low: [bound(0, Math.min, 'low'), bound(1, Math.min, 'low'), bound(2, Math.min, 'low')],
      high: [bound(0, Math.max, 'high'), bound(1, Math.max, 'high'), bound(2, Math.max, 'high')],
      cells: cells.map(({ index }) => index),
    });
  }
  for (const [id, { name, at }] of Object.entries(places)) {
    const centre: Vec3 = [at[0], at[1], at[2] + FEET_HALF[2]];
    const grow = LEAST_REACH_M;
    const low: Vec3 = [
      centre[0] - FEET_HALF[0] - grow,
      centre[1] - FEET_HALF[1] - grow,
      centre[2] - FEET_HALF[2] - grow,
    ];
    const high: Vec3 = [
      centre[0] + FEET_HALF[0] + grow,
      centre[1] + FEET_HALF[1] + grow,
      centre[2] + FEET_HALF[2] + grow,
    ];
    const home = layout.compartmentAt(centre);
    const cells = layout.cells
      .filter((cell) => cell.compartment === home && meets(cell, low, high))
      .map(({ index }) => index);
    if (cells.length === 0) continue;
    zones.push({
      id: `${id}/feet`,
      kind: 'feet',
      owner: id,
      label: name,
      solid: {
        type: 'box',
        id: `${id}/feet`,
        owner: id,
        label: name,
        layer: 'serviceKeepOut',
        centre,
        half: FEET_HALF,
        axes: [
          [1, 0, 0],
          [0, 1, 0],
          [0, 0, 1],
        ],
      },
      reachM: grow,
      keepM: 0,
      isKnown: true,
      heatC: 0,
      low,
      high,
      cells,
    });
  }
  return zones.sort(byId);
}
