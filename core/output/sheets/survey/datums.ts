import type { Vec3 } from '../../../base/vec';
import type { Boat } from '../../../boat/schema/boat';
import type { Layout, Panel } from '../../../shape/layout/types';

/** Where a compartment is measured from: something that an arm with a tape can reach, in the words of the boat. */
export interface LocalDatum {
  readonly axis: 0 | 1 | 2;
  /** `the main bulkhead`, `the sole of the saloon`, `the centreline`. */
  readonly name: string;
  readonly atM: number;
}

const AXIS = { x: 0, y: 1, z: 2 } as const;
/** A datum that is the face itself tells nothing. */
const LEAST_M = 0.02;
/** Square enough to an axis to be measured from (cosine). */
const SQUARE = 0.99;
/** Compartments that people stand in: their faces are known and in reach. */
const ROOMS = new Set(['cabin', 'heads', 'engineSpace', 'cockpitWell']);

/**
 * One datum for each axis, as far as there is one: what the owner has named in the survey first, else the nearest named panel or
 * end of a cabin, the nearest sole, the centreline.
 */
export function localDatums(boat: Boat, layout: Layout, id: string): LocalDatum[] {
  const bounds = boundsOf(layout, id);
  if (!bounds) return [];
  const found: LocalDatum[] = [];
  for (const axis of [0, 1, 2] as const) {
    const near = [...owned(boat, axis), ...(axis === 1 ? CENTRELINE : derived(boat, layout, id, axis))].filter(
      ({ atM }) => away(atM, bounds, axis) >= LEAST_M,
    );
    // The owner's own come first; among equals the nearest.
    const own = near.filter(({ given }) => given);
    const best = (own.length > 0 ? own : near).sort((a, b) => away(a.atM, bounds, axis) - away(b.atM, bounds, axis))[0];
    if (best) found.push({ axis, name: best.name, atM: best.atM });
  }
  return found;
}

interface Candidate {
  readonly name: string;
  readonly atM: number;
  readonly given?: true;
}
interface Bounds {
  readonly low: Vec3;
  readonly high: Vec3;
}

const CENTRELINE: readonly Candidate[] = [{ name: 'the centreline', atM: 0 }];

const away = (at: number, { low, high }: Bounds, axis: 0 | 1 | 2): number =>
  Math.min(Math.abs(at - low[axis]), Math.abs(at - high[axis]));

export function boundsOf(layout: Layout, id: string): Bounds | null {
  const cells = (layout.cellsOf[id] ?? []).flatMap((index) => layout.cells[index] ?? []);
  const first = cells[0];
  if (!first) return null;
  const fold = (a: Vec3, b: Vec3, pick: (p: number, q: number) => number): Vec3 => [
    pick(a[0], b[0]),
    pick(a[1], b[1]),
    pick(a[2], b[2]),
  ];
  return cells.reduce<Bounds>(
    ({ low, high }, cell) => ({ low: fold(low, cell.low, Math.min), high: fold(high, cell.high, Math.max) }),
    first,
  );
}

const owned = (boat: Boat, axis: 0 | 1 | 2): Candidate[] =>
  Object.entries(boat.survey?.datums ?? {}).flatMap(([id, datum]) =>
    datum.axis === undefined || AXIS[datum.axis] !== axis
      ? []
      : [{ name: datum.name ?? id, atM: datum.at[axis], given: true as const }],
  );

function derived(boat: Boat, layout: Layout, id: string, axis: 0 | 2): Candidate[] {
  const panels = Object.values(layout.panels)
    .filter((panel) => Math.abs(panel.normal[axis]) > SQUARE)
    .flatMap((panel) => {
      const name = panel.dataId === undefined ? undefined : boat.panels[panel.dataId]?.name;
      return name === undefined ? [] : [{ name: `the ${lowered(name)}`, atM: planeOf(panel, axis) }];
    });
  const rooms = Object.entries(boat.compartments)
    .filter(([other, { kind }]) => other !== id && ROOMS.has(kind))
    .flatMap(([other, { name }]): Candidate[] => {
      const bounds = boundsOf(layout, other);
      if (!bounds) return [];
      const place = `the ${lowered(name)}`;
      if (axis === 2) return [{ name: `the sole of ${place}`, atM: bounds.low[2] }];
      return [
        { name: `the aft end of ${place}`, atM: bounds.low[0] },
        { name: `the forward end of ${place}`, atM: bounds.high[0] },
      ];
    });
  return axis === 0 && panels.length > 0 ? panels : [...panels, ...rooms];
}

const planeOf = (panel: Panel, axis: 0 | 1 | 2): number => panel.pieces[0]?.[0]?.[axis] ?? 0;
const lowered = (name: string): string =>
  /^[A-Z][a-z ]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
