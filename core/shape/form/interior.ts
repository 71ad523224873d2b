import type { Vec3 } from '../../base/vec';
import { type Problem, problem } from '../../boat/problem';
import type { Boat, Compartment, Hull } from '../../boat/schema/boat';
import { compartment as compartmentSchema } from '../../boat/schema/interior';
import type { HullSurface } from '../hull/types';
import { deriveLayout } from '../layout/derive';
import { clipHalfPlane } from '../layout/polygon';
import type { Room } from '../layout/room';
import type { Layout } from '../layout/types';
import type { Dimensions } from './dimensions';
import { catamaranInterior } from './interior-catamaran';
import { motorInterior } from './interior-motor';
import {
  BOARD_M,
  bodyBottom,
  hasRoom,
  type InteriorPlan,
  innerBreadth,
  millimetre,
  type OpeningDraft,
  type OpeningPlan,
  type PanelDraft,
  roomsOf,
  type Site,
  type StandingDraft,
  tidy3,
} from './interior-plan';
import { sailInterior } from './interior-sail';

/** A locker that was measured with a tape: it stands in the place of one that was guessed. */
export interface MeasuredLocker {
  /** The guessed compartment that it is. */
  readonly compartment: string;
  readonly name?: string | undefined;
  readonly lengthM: number;
  /** From its inner face outward. */
  readonly widthM: number;
  readonly heightM: number;
  /** From the main bulkhead to its nearer end; default as guessed. */
  readonly fromBulkheadM?: number | undefined;
}

export interface Interior {
  readonly compartments: Boat['compartments'];
  readonly openings: Readonly<Record<string, OpeningDraft>>;
  readonly panels: Readonly<Record<string, PanelDraft>>;
  readonly standingPlaces: Readonly<Record<string, StandingDraft>>;
  readonly mainBulkheadM: number;
  readonly soleZ: number;
  readonly rooms: Readonly<Record<string, Room>>;
}

/** Least height of a sole over the bottom of the body, and of the deck over the sole. */
const UNDER_SOLE_M = 0.06;
const OVER_SOLE_M = 0.3;
/** Height that a small engine wants under the sole. */
const ENGINE_ROOM_M = 0.62;
/** Thickness of bulkheads. Common practice, no source. */
const BULKHEAD_M = 0.018;
const LEAST_OPENING_M = 0.12;
/** Free edge round an opening. */
const EDGE_M = 0.03;
/** Of a compartment that a measured locker runs into, less than this is no compartment. */
const LEAST_LEFT_M = 0.12;
const LOCKER_LIMITS_M: readonly [number, number] = [0.1, 4];

/** What the interior of a hull needs to know of it. */
export function siteOf(hull: Hull, surface: HullSurface, d: Dimensions, soleZ: number): Site {
  const stations = bodyBottom(hull);
  const hollow = d.form === 'longKeel' ? 0.4 : 0;
  const floorAt = (x: number): number => {
    const i = Math.max(
      1,
      stations.findIndex(({ xM }) => xM >= x),
    );
    const [a, b] = [stations[i - 1], stations[i]];
    if (!a || !b) return 0;
    const share = Math.min(1, Math.max(0, (x - a.xM) / (b.xM - a.xM)));
    const rootZ = a.rootZ + (b.rootZ - a.rootZ) * share;
    const keelZ = a.keelZ + (b.keelZ - a.keelZ) * share;
    return rootZ - hollow * (rootZ - keelZ);
  };
  const floorZ = (from: number, to: number): number => {
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k <= 12; k += 1) least = Math.min(least, floorAt(from + ((to - from) * k) / 12));
    return least;
  };
  return { d, hull: surface, soleZ, floorZ };
}

/** Height of the sole that the hull asks for: as low as a sole of the usual width finds room. */
export function usualSoleZ(hull: HullSurface, d: Dimensions): number {
  const x = d.form === 'catamaran' ? 0.5 * d.lengthM : 0.53 * d.lengthM;
  const wide = d.form === 'catamaran' ? 0.2 * d.hullBeamM : Math.min(0.55, Math.max(0.26, 0.15 * d.beamM));
  const [low, high] = soleRange(hull, d);
  // Under a motor boat's saloon the engine stands.
  if (d.form === 'motorHull') return millimetre(Math.min(high, Math.max(0.16 * d.midFreeboardM, low + ENGINE_ROOM_M)));
  for (let z = Math.ceil(low * 100) / 100; z < high; z += 0.01)
    if (innerBreadth({ hull }, x, z) >= wide + 0.05) return millimetre(z + 0.01);
  return millimetre(high);
}

/** Least and greatest height of a sole above the water. */
export function soleRange(hull: HullSurface, d: Dimensions): readonly [number, number] {
  const x = 0.53 * d.lengthM;
  let bottom = -d.draughtM;
  while (bottom < 0 && innerBreadth({ hull }, x, bottom) < 0.15) bottom += 0.01;
  return [millimetre(bottom + UNDER_SOLE_M), millimetre(d.midFreeboardM - OVER_SOLE_M)];
}

/** The interior of a form, divided: compartments that do not overlap, the ways into them, what is open between them. */
export function interiorOf(
  site: Site,
  measured: readonly MeasuredLocker[] = [],
): { readonly ok: true; readonly interior: Interior } | { readonly ok: false; readonly problems: readonly Problem[] } {
  const plan = planOf(site);
  const drafted: Boat['compartments'] = Object.fromEntries(
    Object.entries(plan.compartments).map(([id, draft]) => [id, compartmentSchema.parse(draft)]),
  );
  const { kept, rooms } = withRoom(drafted, site.hull);
  const problems = lockerProblems(measured, kept);
  if (problems.length > 0) return { ok: false, problems };
  const compartments = measured.reduce(
    (all, locker) => withMeasured(all, locker, plan, rooms),
    kept as Boat['compartments'],
  );
  const last =
    measured.length > 0
      ? withRoom(
          compartments,
          site.hull,
          measured.map((one) => one.compartment),
        )
      : { kept, rooms };
  const layout = deriveLayout({ compartments: last.kept, panels: {}, newHoles: {}, newHoleCostM: 0 });
  return {
    ok: true,
    interior: {
      compartments: last.kept,
      openings: openingsOf(plan, last.kept, last.rooms, site),
      panels: panelsOf(plan, layout),
      standingPlaces: standingIn(plan, last.kept),
      mainBulkheadM: millimetre(plan.mainBulkheadM),
      soleZ: site.soleZ,
      rooms: last.rooms,
    },
  };
}

function planOf(site: Site): InteriorPlan {
  switch (site.d.form) {
    case 'motorHull':
      return motorInterior(site);
    case 'catamaran':
      return catamaranInterior(site);
    default:
      return sailInterior(site);
  }
}

/** Leaves out what has no volume, or none inside the hull worth drawing. */
function withRoom(
  compartments: Boat['compartments'],
  hull: HullSurface,
  always: readonly string[] = [],
): { readonly kept: Boat['compartments']; readonly rooms: Readonly<Record<string, Room>> } {
  const upright = Object.fromEntries(
    Object.entries(compartments).filter(([, { rangeM }]) => rangeM[1] - rangeM[0] >= LEAST_LEFT_M / 2),
  );
  const rooms = roomsOf(upright, hull);
  const kept = Object.fromEntries(
    Object.entries(upright).filter(([id]) => always.includes(id) || (rooms[id] && hasRoom(rooms[id]))),
  );
  return { kept, rooms };
}

function lockerProblems(measured: readonly MeasuredLocker[], compartments: Boat['compartments']): Problem[] {
  const problems: Problem[] = [];
  measured.forEach((locker, i) => {
    if (!Object.hasOwn(compartments, locker.compartment))
      problems.push(problem(['lockers', i, 'compartment'], locker.compartment, 'this boat has no such compartment'));
    for (const key of ['lengthM', 'widthM', 'heightM'] as const) {
      const value = locker[key];
      if (!(value >= LOCKER_LIMITS_M[0] && value <= LOCKER_LIMITS_M[1]))
        problems.push(
          problem(['lockers', i, key], value, `it must be from ${LOCKER_LIMITS_M[0]} to ${LOCKER_LIMITS_M[1]} m`),
        );
    }
    if (measured.findIndex((other) => other.compartment === locker.compartment) < i)
      problems.push(
        problem(['lockers', i, 'compartment'], locker.compartment, 'it was measured already: choose another'),
      );
  });
  return problems;
}

/** Puts a measured box in the place of a guessed compartment and cuts back whatever it runs into, along the boat. */
function withMeasured(
  compartments: Boat['compartments'],
  locker: MeasuredLocker,
  plan: InteriorPlan,
  rooms: Readonly<Record<string, Room>>,
): Boat['compartments'] {
  const guessed = compartments[locker.compartment];
  const room = rooms[locker.compartment];
  if (!guessed || !room) return compartments;
  const box = boundsOf(guessed);
  const isAft = (box.low[0] + box.high[0]) / 2 < plan.mainBulkheadM;
  const x0 =
    locker.fromBulkheadM === undefined
      ? box.low[0]
      : isAft
        ? plan.mainBulkheadM - locker.fromBulkheadM - locker.lengthM
        : plan.mainBulkheadM + locker.fromBulkheadM;
  const side = room.low[1] + room.high[1] >= 0 ? 1 : -1;
  const crossesCentre = room.low[1] < 0 && room.high[1] > 0;
  const innerFace = crossesCentre ? 0 : Math.min(Math.abs(box.low[1]), Math.abs(box.high[1]));
  const y: readonly [number, number] = crossesCentre
    ? [-locker.widthM / 2, locker.widthM / 2]
    : side > 0
      ? [innerFace, innerFace + locker.widthM]
      : [-innerFace - locker.widthM, -innerFace];
  const measured: Compartment = {
    ...guessed,
    name: locker.name ?? guessed.name,
    view: 'plan',
    outline: [
      [x0, y[0]],
      [x0 + locker.lengthM, y[0]],
      [x0 + locker.lengthM, y[1]],
      [x0, y[1]],
    ].map((p): [number, number] => [millimetre(p[0] ?? 0), millimetre(p[1] ?? 0)]),
    rangeM: [millimetre(box.high[2] - locker.heightM), box.high[2]],
    grade: 'taped',
  };
  const others = { ...compartments, [locker.compartment]: measured };
  // One cut may uncover the next: each makes the rest smaller, so this ends.
  for (let turn = 0; turn < 24; turn += 1) {
    const overlap = deriveLayout({ compartments: others, panels: {}, newHoles: {}, newHoleCostM: 0 }).overlaps.find(
      ({ between }) => between.includes(locker.compartment),
    );
    if (!overlap) break;
    const id = overlap.between.find((one) => one !== locker.compartment) ?? '';
    const other = others[id];
    const cut = other && cutBack(other, x0, x0 + locker.lengthM);
    if (cut) others[id] = cut;
    else delete others[id];
  }
  return others;
}

/** What is left of a compartment aft or forward of a stretch, the longer of the two; null when neither is worth keeping. */
function cutBack(compartment: Compartment, from: number, to: number): Compartment | null {
  const { low, high } = boundsOf(compartment);
  const aft = from - BOARD_M - low[0];
  const forward = high[0] - (to + BOARD_M);
  if (Math.max(aft, forward) < LEAST_LEFT_M) return null;
  const keepAft = aft >= forward;
  if (compartment.view === 'section') {
    const rangeM: [number, number] = keepAft
      ? [compartment.rangeM[0], millimetre(from - BOARD_M)]
      : [millimetre(to + BOARD_M), compartment.rangeM[1]];
    return { ...compartment, rangeM };
  }
  const outline = keepAft
    ? clipHalfPlane(compartment.outline, 1, 0, from - BOARD_M)
    : clipHalfPlane(compartment.outline, -1, 0, -(to + BOARD_M));
  return outline.length < 3
    ? null
    : { ...compartment, outline: outline.map((p): [number, number] => [millimetre(p[0]), millimetre(p[1])]) };
}

/** Bounds of a prism, not cut by the hull. */
function boundsOf({ view, outline, rangeM }: Compartment): { readonly low: Vec3; readonly high: Vec3 } {
  const span = (k: 0 | 1): readonly [number, number] => {
    const values = outline.map((p) => p[k]);
    return [Math.min(...values), Math.max(...values)];
  };
  const [a, b] = [span(0), span(1)];
  const [x, y, z] = view === 'plan' ? [a, b, rangeM] : view === 'profile' ? [a, rangeM, b] : [rangeM, a, b];
  return { low: [x[0], y[0], z[0]], high: [x[1], y[1], z[1]] };
}

/** Where people stand: places in spaces that are there. */
const standingIn = (plan: InteriorPlan, compartments: Boat['compartments']): Readonly<Record<string, StandingDraft>> =>
  Object.fromEntries(
    Object.entries(plan.standing).filter(
      ([, { compartment }]) => compartment === undefined || Object.hasOwn(compartments, compartment),
    ),
  );

function openingsOf(
  plan: InteriorPlan,
  compartments: Boat['compartments'],
  rooms: Readonly<Record<string, Room>>,
  site: Site,
): Record<string, OpeningDraft> {
  const openings: Record<string, OpeningDraft> = {};
  const standing = standingIn(plan, compartments);
  for (const wish of plan.openings) {
    const compartment = compartments[wish.compartment];
    const room = rooms[wish.compartment];
    if (!compartment || !room) continue;
    if (wish.to !== 'outside' && !Object.hasOwn(compartments, wish.to)) continue;
    const to = wish.to === 'outside' ? null : (compartments[wish.to] ?? null);

    const { standing: place, ...rest } = wish;
    const kept = place !== undefined && Object.hasOwn(standing, place) ? wish : rest;
    const cut = openingIn(kept, compartment, room, to, site);
    if (cut) openings[wish.id] = cut;
  }
  return openings;
}

/** An opening in the middle of what its face shares with the space on the other side. */
function openingIn(
  wish: OpeningPlan,
  compartment: Compartment,
  room: Room,
  to: Compartment | null,
  site: Site,
): OpeningDraft | null {
  const own = boundsOf(compartment);
  const beyond = to ? boundsOf(to) : null;
  const shared = (k: 0 | 1 | 2): readonly [number, number] => [
    Math.max(room.low[k], beyond?.low[k] ?? Number.NEGATIVE_INFINITY),
    Math.min(room.high[k], beyond?.high[k] ?? Number.POSITIVE_INFINITY),
  ];
  const fitted = (
    span: readonly [number, number],
    most: number,
  ): { readonly middle: number; readonly size: number } => ({
    middle: (span[0] + span[1]) / 2,
    size: Math.min(most, span[1] - span[0] - 2 * EDGE_M),
  });
  const along = shared(0);
  const upright = shared(2);
  const done = (at: Vec3, normal: Vec3, width: number, height: number): OpeningDraft | null =>
    width < LEAST_OPENING_M || height < LEAST_OPENING_M
      ? null
      : {
          name: wish.name,
          compartment: wish.compartment,
          to: wish.to,
          at: tidy3(at),
          normal: [...normal] as [number, number, number],
          widthM: millimetre(width),
          heightM: millimetre(height),
          grade: compartment.grade,
          ...(wish.how ? { how: wish.how } : {}),
          ...(wish.standing ? { standing: wish.standing } : {}),
          ...(wish.moveFirst ? { moveFirst: [...wish.moveFirst] } : {}),
          ...(wish.weatherDeck ? { weatherDeck: true } : {}),
        };
  const half = BOARD_M / 2;
  if (wish.face === 'top') {
    const z = own.high[2];
    const x = fitted(along, wish.mostM[1]);
    // The lid lies where the hull is still wide enough at its ends.
    const y = lidSpan(compartment, room, shared(1), x, z, site);
    const across = fitted(y, wish.mostM[0]);
    return done([x.middle, across.middle, z + half], [0, 0, 1], across.size, x.size);
  }
  if (wish.face === 'inboard') {
    const starboard = own.low[1] + own.high[1] < 0;
    const centre = site.hull.offsetM === 0 ? 0 : Math.sign(own.low[1] + own.high[1]) * site.hull.offsetM;
    const towardsPlus = site.hull.offsetM === 0 ? starboard : (own.low[1] + own.high[1]) / 2 < centre;
    const y = towardsPlus ? own.high[1] : own.low[1];
    const x = fitted(along, wish.mostM[0]);
    const z = fitted(upright, wish.mostM[1]);
    return done([x.middle, y + (towardsPlus ? half : -half), z.middle], [0, towardsPlus ? 1 : -1, 0], x.size, z.size);
  }
  const forward = wish.face === 'forward';
  const x = forward ? own.high[0] : own.low[0];
  const y = fitted(endSpan(shared(1)), wish.mostM[0]);
  const z = fitted(upright, wish.mostM[1]);
  return done([x + (forward ? half : -half), y.middle, z.middle], [forward ? 1 : -1, 0, 0], y.size, z.size);
}

/** Breadth of a flat top inside the hull over the length of its lid. */
function lidSpan(
  compartment: Compartment,
  room: Room,
  shared: readonly [number, number],
  x: { readonly middle: number; readonly size: number },
  z: number,
  site: Site,
): readonly [number, number] {
  const breadth = Math.min(
    innerBreadth(site, x.middle - x.size / 2, z),
    innerBreadth(site, x.middle + x.size / 2, z),
    innerBreadth(site, x.middle, z),
  );
  const sign = site.hull.offsetM === 0 ? 0 : Math.sign(room.low[1] + room.high[1]);
  const centre = sign * site.hull.offsetM;
  // Of a section with a step the top may be narrower than the room.
  const top = topSpan(compartment, z);
  return [Math.max(shared[0], centre - breadth, top[0]), Math.min(shared[1], centre + breadth, top[1])];
}

const topSpan = ({ view, outline }: Compartment, z: number): readonly [number, number] => {
  if (view !== 'section') return [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const at = outline.filter((p) => Math.abs(p[1] - z) < 1e-6).map((p) => p[0]);
  return [Math.min(...at), Math.max(...at)];
};

/** A door in the end of a space that crosses the centre stands on the centre. */
const endSpan = (span: readonly [number, number]): readonly [number, number] => {
  const reach = Math.min(-span[0], span[1]);
  return span[0] < 0 && span[1] > 0 && reach > 0.3 ? [-reach, reach] : span;
};

/** Records of open panels and of bulkheads, at the middle of the panel that the compartments make. */
function panelsOf(plan: InteriorPlan, layout: Layout): Record<string, PanelDraft> {
  const records: Record<string, PanelDraft> = {};
  const record = (pair: readonly [string, string], more: Partial<PanelDraft>): void => {
    const panels = Object.values(layout.panels)
      .filter(({ between }) => between.includes(pair[0]) && between.includes(pair[1]))
      .sort((a, b) => b.areaM2 - a.areaM2);
    panels.forEach((panel, k) => {
      const near = middleOf(panel.pieces[0] ?? []);
      records[k === 0 ? `${pair[0]}-${pair[1]}` : `${pair[0]}-${pair[1]}-${k + 1}`] = {
        between: [pair[0], pair[1]],
        near: tidy3(near),
        ...more,
      };
    });
  };
  for (const pair of plan.open) record(pair, { rule: 'open' });
  for (const pair of plan.bulkheads)
    record(pair, { rule: 'drill', material: 'ply', thicknessM: BULKHEAD_M, grade: 'guessed' });
  return records;
}

const middleOf = (polygon: readonly Vec3[]): Vec3 => {
  const sum = polygon.reduce<Vec3>((s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]], [0, 0, 0]);
  const n = Math.max(1, polygon.length);
  return [sum[0] / n, sum[1] / n, sum[2] / n];
};
