import { shutOffOf } from '@core/assess/water/shut-off';
import type { Line, Part } from '@core/boat/schema/boat';
import { line } from '@core/boat/schema/lines';
import { part } from '@core/boat/schema/things';
import { circuitOf } from '@core/runs/circuit/circuit';
import { expect, it } from 'vitest';
import { dice } from '../../../support/dice';

/**
 * Networks of tees, valves, reliefs and basins drawn at random, against brute force that knows nothing of walks: all settings of the valves,
 * each judged by merging what is joined. SHUT_OFF_SEED for others.
 */
const SEED = Number(process.env.SHUT_OFF_SEED ?? 20_261_125);
const NETWORKS = 300;

interface Network {
  readonly parts: Record<string, Part>;
  readonly lines: Record<string, Line>;
  readonly joints: readonly (readonly [string, string])[];
  readonly valves: readonly string[];
  readonly basins: readonly string[];
  readonly reliefs: readonly string[];
}

const PORT = { at: [0, 0, 0], direction: [1, 0, 0], medium: 'brine' };
const thing = (kind: string, ports: readonly string[], more: object = {}): Part =>
  part.parse({
    name: kind,
    kind,
    shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
    ports: Object.fromEntries(ports.map((id) => [id, PORT])),
    ...more,
  });

function drawn(throwDie: () => number): Network {
  const upTo = (most: number): number => Math.floor(throwDie() * (most + 1));
  const parts: Record<string, Part> = { source: thing('pumpModule', ['out']) };
  const open: string[] = [];
  const add = (id: string, one: Part): void => {
    parts[id] = one;
    for (const port of Object.keys(one.ports)) open.push(`${id}:${port}`);
  };
  const reliefs: string[] = [];
  for (let k = upTo(4) + 1; k > 0; k--) {
    const isRelief = throwDie() < 0.15;
    if (isRelief) reliefs.push(`tee${k}`);
    add(`tee${k}`, thing('tee', ['a', 'b', 'c'], isRelief ? { relief: {} } : {}));
  }
  const valves = Array.from({ length: upTo(5) }, (_, k) => `valve${k}`);
  for (const id of valves) add(id, thing('other', ['a', 'b'], { valve: { states: ['open', 'shut'] } }));
  const basins = Array.from({ length: upTo(2) + 1 }, (_, k) => `basin${k}`);
  for (const id of basins) add(id, thing('sink', ['drain']));
  const joints: [string, string][] = [];
  let from = 'source:out';
  while (open.length > 0) {
    const [to] = open.splice(Math.floor(throwDie() * open.length), 1);
    if (to === undefined) break;
    joints.push([from, to]);
    const [next] = open.splice(Math.floor(throwDie() * open.length), 1);
    if (next === undefined) break;
    from = next;
  }
  const lines = Object.fromEntries(
    joints.map(([a, b], k) => {
      const end = (key: string) => ({ thing: key.split(':')[0], port: key.split(':')[1] });
      const kind = { name: `line ${k}`, kind: 'hose-brine-16', medium: 'brine' };
      return [`l${k}`, line.parse({ ...kind, from: end(a), to: end(b) })];
    }),
  );
  return { parts, lines, joints, valves, basins, reliefs };
}

/** What the source is joined to with these valves shut. */
function reached({ parts, joints, valves }: Network, shut: ReadonlySet<string>): ReadonlySet<string> {
  const group = new Map<string, string>();
  const rootOf = (key: string): string => {
    const up = group.get(key) ?? key;
    return up === key ? key : rootOf(up);
  };
  const merge = (a: string, b: string): void => {
    group.set(rootOf(a), rootOf(b));
  };
  for (const [a, b] of joints) merge(a, b);
  for (const [id, { ports }] of Object.entries(parts)) {
    if (valves.includes(id) && shut.has(id)) continue;
    const [first, ...rest] = Object.keys(ports).map((port) => `${id}:${port}`);
    for (const key of rest) merge(first ?? key, key);
  }
  const root = rootOf('source:out');
  return new Set(
    Object.entries(parts).flatMap(([id, { ports }]) =>
      Object.keys(ports).some((port) => rootOf(`${id}:${port}`) === root) ? [id] : [],
    ),
  );
}

function expected(network: Network): string {
  const { valves, basins, reliefs } = network;
  const isOut = (things: ReadonlySet<string>): boolean => basins.some((id) => things.has(id));
  if (!isOut(reached(network, new Set()))) return 'noEnd';
  const all = 2 ** valves.length;
  for (let bits = 0; bits < all; bits++) {
    const found = reached(network, new Set(valves.filter((_, k) => bits & (1 << k))));
    if (!isOut(found) && !reliefs.some((id) => found.has(id))) return 'shuts';
  }
  return 'open';
}

it('a way out shuts exactly when brute force finds a setting that shuts it', () => {
  const { next: throwDie } = dice(SEED);
  const counts: Record<string, number> = {};
  for (let k = 0; k < NETWORKS; k++) {
    const network = drawn(throwDie);
    const circuit = circuitOf({ fixtures: {}, parts: network.parts, lines: network.lines });
    const found = shutOffOf(circuit, [{ thing: 'source', port: 'out' }], () => true, true);
    const kind = found.kind === 'stays' || found.kind === 'guarded' ? 'open' : found.kind;
    expect([k, kind]).toEqual([k, expected(network)]);
    counts[kind] = (counts[kind] ?? 0) + 1;
    // Somebody is told what to leave open.
    if (found.kind === 'shuts') expect(found.by.length).toBeGreaterThan(0);
  }
  for (const kind of ['open', 'shuts', 'noEnd']) expect(counts[kind] ?? 0).toBeGreaterThan(NETWORKS / 20);
});
