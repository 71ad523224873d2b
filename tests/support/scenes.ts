import { boatSchema } from '@core/boat/schema/boat';
import { dice, micro, micro3 } from './dice';
import { gap, type P3, plus, times } from './geometry-oracle';
import { type HoseSize, hoseKinds, STIFF } from './hose-sizes';
import type { OraclePrism } from './interior-oracle';
import { interiorOf } from './run-oracle';
import { type BoatDraft, type Draft, hullDraft, hullRoom, interior, panelsDraft, prismsOf } from './scene-interior';
import { keepOf, plant } from './scene-plant';
import { type Keep, openPort, type Stood, solidOf, stand } from './scene-things';
import type { OraclePrim } from './trace-oracle';

export interface Scene {
  readonly seed: number;
  readonly boat: BoatDraft;
  /** Runs that are there by construction: what a perfect router would at least find. */
  readonly planted: Readonly<Record<string, { readonly prims: readonly OraclePrim[]; readonly lengthM: number }>>;
}

const SOFT: readonly HoseSize[] = [
  [12, 25],
  [16, 40],
  [12, 50],
  [18, 60],
  [20, 75],
  [26, 90],
  [24, 100],
];

/**
 * A whole boat from a seed: hull with hollow sections, bays of lockers, panels of which a quarter must not be drilled,
 * equipment with ports that have room, 14 to 25 lines, and about three obstacles a cubic metre.
 * `planted`: runs are drawn first and the obstacles are put round them.
 */
export function scene(
  seed: number,
  options: { readonly planted?: boolean; readonly obstaclesPerM3?: number } = {},
): Scene {
  const d = dice(seed);
  const rooms = interior(d);
  const prisms = prismsOf(rooms).filter((room) => roomy(room));
  const panels = panelsDraft(d, rooms);
  const stood: Stood[] = [];
  const keeps: Keep[] = [];
  for (let k = 0; k < 26; k++) {
    const half: P3 =
      k === 0 ? [0.16, 0.14, 0.12] : [micro(d.from(0.04, 0.13)), micro(d.from(0.04, 0.11)), micro(d.from(0.04, 0.13))];
    const one = stand(d, `t${k}`, d.pick(prisms), half, stood, []);
    if (one) stood.push(one);
  }
  const lineKinds = hoseKinds([...SOFT, ...STIFF]);
  const lines: Draft<'lines'> = {};
  const planted: Record<string, { prims: OraclePrim[]; lengthM: number }> = {};
  const bare = boatSchema.parse({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'x',
    compartments: rooms,
    panels,
    lineKinds,
  });
  const drawn = interiorOf(bare, { arrangement: null });
  const wanted = 14 + d.whole(12);
  for (let n = 0, tries = 0; n < wanted && tries < 200; tries++) {
    const [out, r] = d.next() < 0.3 ? d.pick(STIFF) : d.pick(SOFT);
    const hub = n < 5 && stood[0] ? stood[0] : d.pick(stood);
    const near = stood.filter(
      (one) => one !== hub && (options.planted ? isNext(one.room, hub.room) : gap(one.at, hub.at) < 4),
    );
    if (near.length === 0) continue;
    const other = d.pick(near);
    const room = Math.max(r >= 130 ? 0.06 : 0, out / 2000 + 0.006) + Math.min(0.12, r / 1000);
    const solids = stood.map(solidOf);
    const a = openPort(d, hub, out / 2000, room, solids, keeps);
    if (!a) continue;
    const b = openPort(d, other, out / 2000, room, solids, [...keeps, a.keep]);
    if (!b) continue;
    const id = `l${n}`;
    const keep = [a.keep, b.keep];
    if (options.planted) {
      const run = plant(
        d,
        bare,
        drawn,
        { stood, keeps },
        {
          id,
          kind: `k${out}-${r}`,
          radius: out / 2000,
          bend: r / 1000,
          from: [hub, a.port],
          to: [other, b.port],
        },
      );
      if (!run) continue;
      planted[id] = run;
      keep.push(keepOf(run.prims, out / 2000 + 0.004));
    }
    hub.ports.push({ ...a.port, id: `n${hub.ports.length}` });
    other.ports.push({ ...b.port, id: `n${other.ports.length}` });
    keeps.push(...keep);
    lines[id] = {
      name: id,
      kind: `k${out}-${r}`,
      medium: d.next() < 0.2 ? 'seaWater' : 'product',
      from: { thing: hub.id, port: `n${hub.ports.length - 1}` },
      to: { thing: other.id, port: `n${other.ports.length - 1}` },
    };
    n += 1;
  }
  const per = options.obstaclesPerM3 ?? 3;
  for (const room of prisms) {
    const volume = (room.high[0] - room.low[0]) * (room.high[1] - room.low[1]) * (room.high[2] - room.low[2]) * 0.6;
    const count = Math.round(volume * per * d.from(0.6, 1.4));
    for (let k = 0; k < count; k++) {
      const half: P3 = [micro(d.from(0.03, 0.2)), micro(d.from(0.03, 0.16)), micro(d.from(0.03, 0.16))];
      const one = stand(d, `x${room.id}-${k}`, room, half, stood, keeps);
      if (one) stood.push(one);
    }
  }
  const fixtures: Draft<'fixtures'> = {};
  for (const one of stood)
    fixtures[one.id] = {
      name: one.id,
      kind: 'other',
      shape: { type: 'box', sizeM: micro3(times(one.half, 2)) },
      pose: { at: micro3(one.at), yawDeg: one.yawDeg },
      ports: Object.fromEntries(
        one.ports.map((p) => [p.id, { at: micro3(p.local), direction: micro3(p.localDirection) }]),
      ),
    };
  return {
    seed,
    planted,
    boat: {
      format: 'underberth-boat',
      schemaVersion: 1,
      name: `Scene ${seed}`,
      hull: hullDraft(),
      compartments: rooms,
      panels,
      fixtures,
      lineKinds,
      lines,
    },
  };
}

const isNext = (a: OraclePrism, b: OraclePrism): boolean =>
  [0, 1, 2].every(
    (k) => (a.low[k] as number) < (b.high[k] as number) + 0.06 && (b.low[k] as number) < (a.high[k] as number) + 0.06,
  );

/** A room in which anything at all can stand. */
const roomy = (room: OraclePrism): boolean => {
  const c = times(plus(room.low, room.high), 0.5);
  return hullRoom([c[0], c[1] * 0.7, c[2]]) > 0.1;
};
