import { boatSchema } from '@core/boat/schema/boat';
import { type Dice, dice, micro, micro3 } from './dice';
import { gap, minus, normalised, type P3, plus, size, times } from './geometry-oracle';
import { type HoseSize, hoseKinds, isStiff, STIFF, STIFF_END_M } from './hose-sizes';
import type { OraclePrism } from './interior-oracle';
import { interiorOf } from './run-oracle';
import { type BoatDraft, type Draft, type HullForm, hullForm, prismsOf } from './scene-interior';
import { keepOf, type Planted, plant } from './scene-plant';
import { type Keep, openPort, type Stood, solidOf, stand } from './scene-things';
import { suitePanels, suiteRooms } from './suite-interior';
import type { OraclePrim } from './trace-oracle';

/** The mix that the suite holds to. */
export const LINES = 14;
export const STIFF_LINES = 0.3;
export const OBSTACLES_PER_M3 = 3;

export interface SuiteScene {
  readonly seed: number;
  readonly isPlanted: boolean;
  readonly boat: BoatDraft;
  /** Runs that are there by construction, by line: all of them at once. */
  readonly planted: Readonly<Record<string, Planted>>;
  readonly counts: {
    readonly cells: number;
    readonly oddCells: number;
    readonly stiffLines: number;
    readonly obstacles: number;
    /** Of the compartments within the hull. */
    readonly volumeM3: number;
  };
}

const SOFT: readonly HoseSize[] = [
  [12, 25],
  [16, 40],
  [12, 50],
  [20, 75],
  [26, 90],
  [24, 100],
];

/** Least bend radius of the centre line of a kind of the suite, millimetres. */
export const radiusOf = (kind: string): number => Number(kind.split('-')[1]);

interface Setting {
  readonly d: Dice;
  readonly form: HullForm;
  readonly rooms: readonly OraclePrism[];
  readonly stood: Stood[];
  readonly keeps: Keep[];
  readonly shapes: Map<string, Pick<Draft<'fixtures'>[string], 'shape' | 'sweeps' | 'soft'>>;
}

/**
 * A boat of the suite from its seed; every second seed draws its runs first and puts the obstacles round them. Seeds of which no scene
 * of fourteen lines comes are drawn again from a number that follows from them.
 */
export function suiteScene(seed: number): SuiteScene {
  for (let again = 0; again < 8; again++) {
    const made = attempt(seed, dice(seed * 7 + again * 1_000_003 + 11));
    if (made) return made;
  }
  throw new Error(`suiteScene: expected fourteen lines from seed ${seed} within eight draws`);
}

function attempt(seed: number, d: Dice): SuiteScene | null {
  const isPlanted = seed % 2 === 0;
  const form = hullForm(d.pick(['wineglass', 'bilged']), d.next() < 0.25 ? 'ribbed' : 'lined');
  const { rooms, odd } = suiteRooms(d);
  const panels = suitePanels(d, rooms, form);
  const prisms = prismsOf(rooms);
  const volumes = prisms.map((room) => volumeOf(room, form));
  const open = prisms.filter((_, k) => (volumes[k] as number) > 0.05);
  const setting: Setting = { d, form, rooms: open, stood: [], keeps: [], shapes: new Map() };
  for (let k = 0; k < 26; k++) equip(setting, k);
  const bare = boatSchema.parse({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'x',
    compartments: rooms,
    panels,
    lineKinds: hoseKinds([...SOFT, ...STIFF]),
  });
  const sizes = sizesFor(d);
  const lines: Draft<'lines'> = {};
  const straights = new Map<string, number>();
  const planted: Record<string, Planted> = {};
  const drawn = interiorOf(bare, { arrangement: null });
  for (let n = 0, tries = 0; n < LINES; tries++) {
    if (tries > 400) return null;
    const one = connect(setting, `l${n}`, sizes[n] as HoseSize, isPlanted ? { bare, drawn } : null);
    if (!one) continue;
    lines[`l${n}`] = one.line;
    if (one.planted) planted[`l${n}`] = one.planted;
    for (const [key, straightM] of one.straights) straights.set(key, straightM);
    n += 1;
  }
  const volumeM3 = volumes.reduce((sum, v) => sum + v, 0);
  const obstacles = obstruct(setting, volumes, prisms);
  const clipPoints = clipsFor(setting, lines, planted);
  supply(d, lines, planted, setting.stood);
  return {
    seed,
    isPlanted,
    planted,
    counts: {
      cells: prisms.length,
      oddCells: odd.size,
      stiffLines: sizes.filter(isStiff).length,
      obstacles,
      volumeM3,
    },
    boat: {
      format: 'underberth-boat',
      schemaVersion: 1,
      name: `Suite ${seed}`,
      hull: form.draft,
      compartments: rooms,
      panels,
      fixtures: fixturesDraft(setting, straights),
      lineKinds: hoseKinds([...SOFT, ...STIFF]),
      lines,
      arrangements: { plan: { name: 'plan', clipPoints } },
    },
  };
}

/** Volume within the hull, by counting points 100 mm apart. */
function volumeOf(room: OraclePrism, form: HullForm): number {
  let count = 0;
  for (let x = room.low[0] + 0.05; x < room.high[0]; x += 0.1)
    for (let y = room.low[1] + 0.05; y < room.high[1]; y += 0.1)
      for (let z = room.low[2] + 0.05; z < room.high[2]; z += 0.1)
        if (form.room([x, y, z]) > 0 && room.contains([x, y, z])) count += 1;
  return count * 0.001;
}

/** A thing with ports: one of four is an upright cylinder. */
function equip({ d, form, rooms, stood, shapes }: Setting, k: number): void {
  const half: P3 =
    k === 0 ? [0.16, 0.14, 0.12] : [micro(d.from(0.04, 0.13)), micro(d.from(0.04, 0.11)), micro(d.from(0.04, 0.13))];
  const round = k > 0 && d.next() < 0.25;
  const girth = Math.min(half[0], half[1]);
  const one = stand(d, `t${k}`, d.pick(rooms), round ? [girth, girth, half[2]] : half, stood, [], form.room);
  if (!one) return;
  stood.push({ ...one, round });
  shapes.set(one.id, { shape: round ? cylinder(one.half) : boxOf(one.half) });
}

const boxOf = (half: P3) => ({ type: 'box' as const, sizeM: micro3(times(half, 2)) });
const cylinder = (half: P3) => ({
  type: 'cylinder' as const,
  diameterM: micro(2 * Math.min(half[0], half[1])),
  lengthM: micro(2 * half[2]),
  axis: 'z' as const,
});

/** Three lines in ten are stiff: four or five of fourteen. They are drawn first, while there is room. */
function sizesFor(d: Dice): HoseSize[] {
  const stiff = Math.floor(STIFF_LINES * LINES + d.next());
  return Array.from({ length: LINES }, (_, n) => (n < stiff ? d.pick(STIFF) : d.pick(SOFT)));
}

interface Connected {
  readonly line: Draft<'lines'>[string];
  readonly planted: Planted | null;
  readonly straights: readonly (readonly [string, number])[];
}

function connect(
  { d, form, stood, keeps }: Setting,
  id: string,
  [out, r]: HoseSize,
  plantIn: { readonly bare: ReturnType<typeof boatSchema.parse>; readonly drawn: ReturnType<typeof interiorOf> } | null,
): Connected | null {
  const hub = d.next() < 0.3 && stood[0] ? stood[0] : d.pick(stood);
  const near = stood.filter((one) => one !== hub && (plantIn ? isNext(one.room, hub.room) : gap(one.at, hub.at) < 4));
  if (near.length === 0) return null;
  const other = d.pick(near);
  const crimped = d.next() < 0.15;
  const straightM: [number, number] = [d.next() < 0.15 ? 0.03 : 0, d.next() < 0.15 ? 0.03 : 0];
  const rigid = r >= 130 ? STIFF_END_M : crimped ? 0.05 : 0;
  const room = Math.max(rigid + Math.max(...straightM), out / 2000 + 0.006) + Math.min(0.12, r / 1000);
  const solids = stood.map(solidOf);
  const a = openPort(d, hub, out / 2000, room, solids, keeps, form.room);
  if (!a) return null;
  const b = openPort(d, other, out / 2000, room, solids, [...keeps, a.keep], form.room);
  if (!b) return null;
  const ends = crimped ? { from: { rigidM: rigid, diameterM: micro(out / 1000 + 0.006), crimped: true } } : {};
  const keep = [a.keep, b.keep];
  let run: Planted | null = null;
  if (plantIn) {
    run = plant(
      d,
      plantIn.bare,
      plantIn.drawn,
      { stood, keeps },
      {
        id,
        kind: `k${out}-${r}`,
        radius: out / 2000,
        bend: r / 1000,
        from: [hub, a.port],
        to: [other, b.port],
        hull: form.room,
        ends: boatSchema.shape.lines.parse({ one: { ...lineDraft('one', out, r), ends } }).one?.ends ?? {},
        straightM,
      },
    );
    if (!run) return null;
    keep.push(keepOf(run.prims, out / 2000 + 0.004));
  }
  const [na, nb] = [`n${hub.ports.length}`, `n${other.ports.length}`];
  hub.ports.push({ ...a.port, id: na });
  other.ports.push({ ...b.port, id: nb });
  keeps.push(...keep);
  // One line in seven draws sea water.
  const suction = d.next() < 1 / 7;
  return {
    planted: run,
    straights: [
      [`${hub.id}.${na}`, straightM[0]],
      [`${other.id}.${nb}`, straightM[1]],
    ],
    line: {
      ...lineDraft(id, out, r),
      medium: suction ? 'seaWater' : d.pick(['product', 'freshWater', 'brine'] as const),
      suction,
      from: { thing: hub.id, port: na },
      to: { thing: other.id, port: nb },
      ends,
    },
  };
}

const lineDraft = (id: string, out: number, r: number): Draft<'lines'>[string] => ({
  name: id,
  kind: `k${out}-${r}`,
  medium: 'product',
  from: { thing: 't', port: 'n' },
  to: { thing: 't', port: 'n' },
});

/** Three obstacles a cubic metre, spread by volume: boxes, cylinders, and what sweeps a sector. */
function obstruct(
  { d, form, stood, keeps, shapes }: Setting,
  volumes: readonly number[],
  prisms: readonly OraclePrism[],
): number {
  let [wanted, done] = [0, 0];
  prisms.forEach((room, k) => {
    wanted += (volumes[k] as number) * OBSTACLES_PER_M3;
    for (let n = 0; done < Math.round(wanted) && n < 40; n++) {
      const most = n < 12 ? 1 : 0.6;
      const half: P3 = [
        micro(d.from(0.03, 0.2 * most)),
        micro(d.from(0.03, 0.16 * most)),
        micro(d.from(0.03, 0.16 * most)),
      ];
      const one = stand(d, `x${room.id}-${n}`, room, half, stood, keeps, form.room);
      if (!one) continue;
      stood.push(one);
      shapes.set(one.id, obstacleShape(d, half));
      done += 1;
    }
  });
  return done;
}

function obstacleShape(d: Dice, half: P3): Pick<Draft<'fixtures'>[string], 'shape' | 'sweeps' | 'soft'> {
  const what = d.next();
  if (what < 0.65) return { shape: boxOf(half) };
  if (what < 0.85) return { shape: cylinder(half) };
  const fromDeg = micro(d.from(-180, 90));
  return {
    shape: { type: 'box', sizeM: [0.02, 0.02, 0.02] },
    soft: true,
    sweeps: {
      arm: {
        type: 'sector',
        at: [0, 0, 0],
        axis: 'z',
        radiusM: micro(Math.min(half[0], half[1])),
        fromDeg,
        toDeg: micro(fromDeg + d.from(60, 200)),
        thicknessM: micro(2 * half[2]),
      },
    },
  };
}

/** One line in ten must pass a point: on its planted run, else somewhere free in the room that it starts in. */
function clipsFor(
  { d, form, rooms, stood, keeps }: Setting,
  lines: Draft<'lines'>,
  planted: Readonly<Record<string, Planted>>,
): NonNullable<Draft<'arrangements'>[string]['clipPoints']> {
  const clips: NonNullable<Draft<'arrangements'>[string]['clipPoints']> = {};
  const solids = stood.map(solidOf);
  for (const [id, line] of Object.entries(lines)) {
    if (d.next() >= 0.1) continue;
    const straight = (planted[id]?.prims ?? [])
      .slice(1, -1)
      .find(
        (prim): prim is Extract<OraclePrim, { kind: 'line' }> => prim.kind === 'line' && gap(prim.from, prim.to) > 0.1,
      );
    const at = straight ? times(plus(straight.from, straight.to), 0.5) : planted[id] ? null : freeSpot(line.from.thing);
    // Nothing is clipped within a panel or close before one.
    if (at && rooms.some((room) => around(at, 0.06).every((p) => room.contains(p))))
      clips[id] = { hook: { at: micro3(at), order: 1 } };
  }
  return clips;

  function freeSpot(thing: string): P3 | null {
    const room = stood.find((one) => one.id === thing)?.room;
    if (!room) return null;
    for (let n = 0; n < 40; n++) {
      const at: P3 = [0, 1, 2].map((k) => d.from(room.low[k] as number, room.high[k] as number)) as unknown as P3;
      if (
        around(at, 0.08).every((p) => room.contains(p)) &&
        form.room(at) > 0.14 &&
        solids.every((one) => one.distance(at) > 0.06) &&
        keeps.every((keep) => keep.points.every((p) => gap(p, at) > keep.radius + 0.04))
      )
        return at;
    }
    return null;
  }
}

/** Six points about one, along the axes. */
const around = (at: P3, by: number): P3[] =>
  [0, 1, 2].flatMap((k) => [-by, by].map((d) => at.map((v, i) => (i === k ? v + d : v)) as unknown as P3));

/** One line in ten is a hose that was bought already: a little longer than what is known to do, else by guess. */
function supply(
  d: Dice,
  lines: Draft<'lines'>,
  planted: Readonly<Record<string, Planted>>,
  stood: readonly Stood[],
): void {
  const at = (end: { thing: string; port: string }): P3 =>
    stood.find((one) => one.id === end.thing)?.ports.find((one) => one.id === end.port)?.at ?? [0, 0, 0];
  for (const [id, line] of Object.entries(lines)) {
    if (d.next() >= 0.1) continue;
    const known = planted[id]?.lengthM;
    const lengthM = known !== undefined ? known + 0.06 : size(minus(at(line.from), at(line.to))) * 1.8 + 0.6;
    lines[id] = { ...line, supplied: { lengthM: micro(lengthM), spareM: 0.05, mayCut: false } };
  }
}

function fixturesDraft({ stood, shapes }: Setting, straights: ReadonlyMap<string, number>): Draft<'fixtures'> {
  return Object.fromEntries(
    stood.map((one) => [
      one.id,
      {
        name: one.id,
        kind: 'other' as const,
        shape: boxOf(one.half),
        ...shapes.get(one.id),
        pose: { at: micro3(one.at), yawDeg: one.yawDeg },
        ports: Object.fromEntries(
          one.ports.map((p) => [
            p.id,
            {
              at: micro3(p.local),
              direction: micro3(normalised(p.localDirection)),
              straightM: straights.get(`${one.id}.${p.id}`) ?? 0,
            },
          ]),
        ),
      },
    ]),
  );
}

const isNext = (a: OraclePrism, b: OraclePrism): boolean =>
  [0, 1, 2].every(
    (k) => (a.low[k] as number) < (b.high[k] as number) + 0.06 && (b.low[k] as number) < (a.high[k] as number) + 0.06,
  );
