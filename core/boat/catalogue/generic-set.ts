import type { z } from 'zod';
import type { Part } from '../schema/boat';
import type { line } from '../schema/lines';
import { FIXTURE_TEMPLATES } from './fixture-templates';
import { PART_TEMPLATES } from './part-templates';
import { boxOf, mm, type PartDraft, partOf, portAt } from './templates';

/** Product of a set in litres an hour: what its owner knows of it. */
export const SET_SIZES = [30, 60, 100] as const;
export type SetSize = (typeof SET_SIZES)[number];

export type LineDraft = z.input<typeof line>;

export interface GenericSet {
  /** By id, in the order of the water. */
  readonly parts: Readonly<Record<string, Part>>;
  readonly lines: Readonly<Record<string, LineDraft>>;
}

/** Fixtures that a set hangs on: ids, or null where the boat has none. */
export interface SetConnections {
  readonly intake: string | null;
  readonly bank: string | null;
  readonly tank: string | null;
  readonly freshPump: string | null;
}

interface SizeData {
  /** Length, width, height of the pump module in millimetres, its mass and current. */
  readonly pump: readonly [number, number, number];
  readonly massKg: number;
  readonly drawA: number;
  readonly flowLMin: number;
  readonly vessels: readonly string[];
  readonly cable: string;
  readonly fuseA: number;
}

/** Cables at a battery are held more closely than others, metres. Common practice, no source. */
const BATTERY_CLIP_M = 0.3;

/** Typical of 12 V sets of our own invention: from memory, to be replaced by the data sheet. */
const SIZES: Readonly<Record<SetSize, SizeData>> = {
  30: {
    pump: [420, 260, 240],
    massKg: 18,
    drawA: 17,
    flowLMin: 4,
    vessels: ['membrane-21'],
    cable: 'cable-pair-10',
    fuseA: 40,
  },
  60: {
    pump: [500, 290, 270],
    massKg: 25,
    drawA: 32,
    flowLMin: 7,
    vessels: ['membrane-40'],
    cable: 'cable-pair-25',
    fuseA: 60,
  },
  100: {
    pump: [560, 320, 300],
    massKg: 32,
    drawA: 52,
    flowLMin: 11,
    vessels: ['membrane-40', 'membrane-40'],
    cable: 'cable-pair-50',
    fuseA: 100,
  },
};

const template = (id: string): PartDraft => {
  const found = [...PART_TEMPLATES, ...FIXTURE_TEMPLATES].find((one) => one.id === id);
  if (!found) throw new Error(`generic set: expected a template ${id}`);
  return found.draft;
};

const made = (id: string, tag: string, more: Partial<PartDraft> = {}): Part =>
  partOf({ id, group: 'watermaker', draft: { ...template(id), tag, grade: 'guessed', ...more } });

/** A generic set of one of three sizes with its lines; what has nothing to hang on is left out. */
export function genericSet(size: SetSize, at: SetConnections): GenericSet {
  const data = SIZES[size];
  const parts: Record<string, Part> = {
    strainer: made('strainer', 'SR1', { bleeds: true }),
    'service-valve': serviceValve(),
    coarse: made('filter-coarse', 'FL1', { bleeds: true }),
    fine: made('filter-fine', 'FL2', { bleeds: true }),
    pump: pumpOf(size, data),
    'brine-out': brineOutlet(),
    station: stationOf(data.vessels.length),
    tap: made('test-tap', 'TP1'),
    fuse: made('fuse-block', 'FU1', { electric: { ratingA: data.fuseA, interruptsA: 20000 } }),
    breaker: made('breaker', 'BR1', { electric: { ...template('breaker').electric, ratingA: data.fuseA - 10 } }),
  };
  data.vessels.forEach((id, i) => {
    parts[vesselId(i)] = made(id, `MB${i + 1}`, {
      passages: {
        reject: { ports: ['feed', 'brine'], oneWay: true },
        product: { ports: ['feed', 'product'], oneWay: true },
      },
    });
  });
  if (at.freshPump !== null) {
    parts['flush-valve'] = made('flush-valve', 'FV1', {
      name: 'Flush valve with timer and check valve',
      passages: { through: { ports: ['in', 'out'], oneWay: true, when: ['open'] } },
    });
    parts.carbon = made('filter-carbon', 'FL3');
  }
  return { parts, lines: linesOf(data, at) };
}

const vesselId = (i: number): string => (i === 0 ? 'membrane' : `membrane-${i + 1}`);

function pumpOf(productLH: SetSize, { pump: [length, width, height], massKg, drawA, flowLMin }: SizeData): Part {
  const draft = template('pump-module-12v');
  const half = length / 2;
  return made('pump-module-12v', 'PM1', {
    shape: boxOf(length, width, height),
    massKg,
    flowLMin,
    productLH,
    // 6.5 to 7.3 Wh a litre: no set makes water with so little unless it takes back the pressure of the brine.
    recoversEnergy: true,
    heatW: Math.round(drawA * 4.2),
    electric: { ...draft.electric, drawA },
    ports: {
      in: portAt([-half, width / 4, 0], 'aft', 'seaWater', 'in', 19),
      pressure: portAt([-half, -width / 4, 60], 'aft', 'seaWater', 'out', 9.5),
      power: portAt([-half, 0, height / 2 - 40], 'aft', 'dcPower', 'in'),
      signal: portAt([-half, 40, height / 2 - 40], 'aft', 'signal', 'both'),
    },
    services: Object.fromEntries(
      Object.entries(draft.services ?? {}).map(([id, service]) => [
        id,
        {
          ...service,
          at: service.at.map((value, axis) =>
            mm(Math.round((value * 1000 * ([length, width, height][axis] ?? 1)) / ([520, 300, 280][axis] ?? 1))),
          ) as [number, number, number],
        },
      ]),
    ),
  });
}

/** Its service port takes the fresh water of a flush. */
const serviceValve = (): Part =>
  made('service-valve', 'SV1', {
    ports: { ...template('service-valve').ports, service: portAt([0, -30, -15], 'starboard', 'freshWater', 'in', 19) },
  });

/** With a valve of its own: at heel it may lie under water. A label says that it is opened before the set runs. */
const brineOutlet = (): Part =>
  made('brine-skin-fitting', 'SK2', {
    name: 'Brine skin fitting with valve',
    valve: {
      states: ['open', 'shut'],
      normally: 'shut',
      kind: 'ball',
      labelled: true,
      handle: { at: [0, mm(-25), mm(20)], leverM: mm(80), swingDeg: 90 },
    },
  });

/** Hoses leave at its ends, tubes and cable behind: lockers are shallow. */
function stationOf(vessels: number): Part {
  const draft = template('control-station');
  return made('control-station', 'CS1', {
    ports: {
      ...draft.ports,
      pressureIn: portAt([20, 150, -50], 'port', 'brine', 'in', 9.5),
      brine: portAt([20, -150, -50], 'starboard', 'brine', 'out', 16),
      ...(vessels > 1 ? { product2: portAt([65, 110, 0], 'forward', 'product', 'in', 4.3) } : {}),
    },
    passages: {
      ...draft.passages,
      ...(vessels > 1
        ? {
            tank2: { ports: ['product2', 'toTank'], when: ['tank'] },
            tap2: { ports: ['product2', 'toTap'], when: ['reject'] },
          }
        : {}),
    },
  });
}

function linesOf({ vessels, cable, drawA }: SizeData, at: SetConnections): Record<string, LineDraft> {
  const lines: Record<string, LineDraft> = {};
  const counts: Record<string, number> = {};
  const add = (
    letter: string,
    name: string,
    kind: string,
    medium: LineDraft['medium'],
    from: readonly [string | null, string],
    to: readonly [string | null, string],
    more: Partial<LineDraft> = {},
  ): void => {
    if (from[0] === null || to[0] === null) return;
    const n = (counts[letter] ?? 0) + 1;
    counts[letter] = n;
    lines[`${letter.toLowerCase()}${n}`] = {
      tag: `${letter}${n}`,
      name,
      kind,
      medium,
      from: { thing: from[0], port: from[1] },
      to: { thing: to[0], port: to[1] },
      ...more,
    };
  };
  const last = vesselId(vessels.length - 1);
  add('S', 'Seacock to strainer', 'hose-suction-19', 'seaWater', [at.intake, 'out'], ['strainer', 'in']);
  add('S', 'Strainer to service valve', 'hose-suction-19', 'seaWater', ['strainer', 'out'], ['service-valve', 'sea']);
  add('S', 'Service valve to coarse filter', 'hose-suction-19', 'seaWater', ['service-valve', 'out'], ['coarse', 'in']);
  add('S', 'Coarse to fine filter', 'hose-suction-19', 'seaWater', ['coarse', 'out'], ['fine', 'in']);
  add('S', 'Fine filter to pump', 'hose-suction-19', 'seaWater', ['fine', 'out'], ['pump', 'in']);
  add('H', 'Pump to membrane', 'hose-pressure-10', 'seaWater', ['pump', 'pressure'], ['membrane', 'feed']);
  if (vessels.length > 1)
    add('H', 'First to second membrane', 'hose-pressure-10', 'brine', ['membrane', 'brine'], [last, 'feed']);
  add('H', 'Membrane to control station', 'hose-pressure-10', 'brine', [last, 'brine'], ['station', 'pressureIn']);
  add('B', 'Control station to brine outlet', 'hose-brine-16', 'brine', ['station', 'brine'], ['brine-out', 'in']);
  vessels.forEach((_, i) => {
    add(
      'W',
      `Product of membrane${vessels.length > 1 ? ` ${i + 1}` : ''} to control station`,
      'tube-product-6',
      'product',
      [vesselId(i), 'product'],
      ['station', i === 0 ? 'product' : 'product2'],
    );
  });
  add('W', 'Control station to tank', 'tube-product-6', 'product', ['station', 'toTank'], [at.tank, 'fill']);
  add('W', 'Control station to test tap', 'tube-product-6', 'product', ['station', 'toTap'], ['tap', 'in']);
  add(
    'F',
    'Fresh pump to flush valve',
    'hose-fresh-13',
    'freshWater',
    [at.freshPump, 'out'],
    [at.freshPump && 'flush-valve', 'in'],
  );
  add(
    'F',
    'Flush valve to carbon filter',
    'hose-fresh-13',
    'freshWater',
    [at.freshPump && 'flush-valve', 'out'],
    [at.freshPump && 'carbon', 'in'],
  );
  add(
    'F',
    'Carbon filter to service valve',
    'hose-fresh-13',
    'freshWater',
    [at.freshPump && 'carbon', 'out'],
    ['service-valve', 'service'],
  );
  add('L', 'Bank to fuse', cable, 'dcPower', [at.bank, 'posts'], ['fuse', 'in'], {
    currentA: drawA,
    sheathed: true,
    clipM: BATTERY_CLIP_M,
  });
  add('L', 'Fuse to breaker', cable, 'dcPower', ['fuse', 'out'], ['breaker', 'in'], { currentA: drawA });
  add('L', 'Breaker to pump', cable, 'dcPower', ['breaker', 'out'], ['pump', 'power'], { currentA: drawA });
  add('C', 'Control station to pump', 'cable-signal', 'signal', ['station', 'signal'], ['pump', 'signal']);
  return lines;
}
