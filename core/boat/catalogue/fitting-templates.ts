import { boxOf, clear, cylinderOf, type PartDraft, portAt, type Template } from './templates';

/** Small parts that a set is joined with. Typical sizes from memory, common practice; lengths in millimetres. */
const inLine = (
  name: string,
  kind: PartDraft['kind'],
  length: number,
  across: number,
  massKg: number,
  bore: number,
  medium: 'seaWater' | 'freshWater' | 'product' | 'brine',
  more: Partial<PartDraft> = {},
): PartDraft => ({
  name,
  kind,
  shape: boxOf(length, across, across),
  massKg,
  ports: {
    in: portAt([-length / 2, 0, 0], 'aft', medium, 'in', bore),
    out: portAt([length / 2, 0, 0], 'forward', medium, 'out', bore),
  },
  ...more,
});

const driver = (length: number, across: number): NonNullable<PartDraft['services']> => ({
  clamps: clear('clamps', [0, 0, across / 2], 'up', [length, across + 40], 120, {
    name: 'screwdriver on the clamps',
    needs: ['driver'],
  }),
});

const DRAFTS: readonly (readonly [Template['group'], string, PartDraft])[] = [
  [
    'valves',
    'check-valve-13',
    inLine('Check valve 1/2 in', 'other', 80, 35, 0.1, 13, 'freshWater', {
      valve: { states: ['open'], kind: 'check' },
      passages: { through: { ports: ['in', 'out'], oneWay: true } },
      material: 'plastic',
      services: driver(80, 35),
    }),
  ],
  [
    'valves',
    'check-valve-6',
    inLine('Check valve, 1/4 in tube', 'other', 60, 20, 0.03, 4.3, 'product', {
      valve: { states: ['open'], kind: 'check' },
      passages: { through: { ports: ['in', 'out'], oneWay: true } },
      material: 'plastic',
    }),
  ],
  [
    'valves',
    'relief-valve',
    inLine('Relief valve 3/8 in, 70 bar', 'other', 90, 40, 0.5, 9.5, 'brine', {
      valve: { states: ['open'], kind: 'relief' },
      relief: { opensBar: 70 },
      material: 'stainless316',
      services: {
        nuts: clear('nut', [0, 0, 20], 'up', [90, 80], 120, { name: 'spanner on the nuts', needs: ['spanner'] }),
      },
    }),
  ],
  [
    'valves',
    'ball-valve-19',
    inLine('Ball valve 3/4 in', 'other', 90, 50, 0.4, 19, 'seaWater', {
      valve: {
        states: ['open', 'shut'],
        normally: 'open',
        kind: 'ball',
        handle: { at: [0, 0, 0.04], leverM: 0.1, swingDeg: 90, direction: [1, 0, 0] },
      },
      material: 'bronze',
      services: { lever: clear('handle', [0, 0, 25], 'up', [220, 220], 60, { needs: ['hand'] }) },
    }),
  ],
  [
    'valves',
    'bulkhead-union-10',
    {
      name: 'Bulkhead union 3/8 in, high pressure',
      kind: 'bulkheadUnion',
      shape: cylinderOf(32, 75, 'x'),
      massKg: 0.2,
      boreM: 0.0095,
      ports: {
        a: portAt([-37.5, 0, 0], 'aft', 'brine', 'both', 9.5),
        b: portAt([37.5, 0, 0], 'forward', 'brine', 'both', 9.5),
      },
      material: 'stainless316',
      services: {
        aft: clear('nut', [-37.5, 0, 0], 'aft', [80, 80], 90, { name: 'spanner', needs: ['spanner'] }),
        forward: clear('nut', [37.5, 0, 0], 'forward', [80, 80], 90, { name: 'spanner', needs: ['spanner'] }),
      },
    },
  ],
  [
    'valves',
    'bulkhead-union-19',
    {
      name: 'Bulkhead union 3/4 in, barbs',
      kind: 'bulkheadUnion',
      shape: cylinderOf(45, 110, 'x'),
      massKg: 0.2,
      boreM: 0.019,
      ports: {
        a: portAt([-55, 0, 0], 'aft', 'seaWater', 'both', 19),
        b: portAt([55, 0, 0], 'forward', 'seaWater', 'both', 19),
      },
      material: 'plastic',
    },
  ],
  [
    'valves',
    'tee-13',
    {
      name: 'Tee 1/2 in',
      kind: 'tee',
      shape: boxOf(60, 40, 24),
      massKg: 0.05,
      ports: {
        a: portAt([-30, 0, 0], 'aft', 'freshWater', 'both', 13),
        b: portAt([30, 0, 0], 'forward', 'freshWater', 'both', 13),
        branch: portAt([0, 20, 0], 'port', 'freshWater', 'both', 13),
      },
      services: { clamps: clear('clamps', [0, -20, 0], 'starboard', [80, 50], 150, { needs: ['driver'] }) },
    },
  ],
  [
    'valves',
    'tee-6',
    {
      name: 'Tee, 1/4 in tube',
      kind: 'tee',
      shape: boxOf(45, 30, 16),
      massKg: 0.02,
      ports: {
        a: portAt([-22.5, 0, 0], 'aft', 'product', 'both', 4.3),
        b: portAt([22.5, 0, 0], 'forward', 'product', 'both', 4.3),
        branch: portAt([0, 15, 0], 'port', 'product', 'both', 4.3),
      },
    },
  ],
  [
    'electric',
    'battery-switch',
    {
      name: 'Battery isolator',
      kind: 'other',
      shape: boxOf(70, 70, 75),
      massKg: 0.3,
      ports: {
        in: portAt([0, 20, -37.5], 'down', 'dcPower', 'in'),
        out: portAt([0, -20, -37.5], 'down', 'dcPower', 'out'),
      },
      valve: { states: ['on', 'off'], normally: 'on', kind: 'other' },
      electric: { isolates: true, ratingA: 250, dripProof: 'dripProof' },
      services: { knob: clear('handle', [0, 0, 37.5], 'up', [90, 90], 100, { needs: ['hand'] }) },
    },
  ],
  [
    'electric',
    'busbar',
    {
      name: 'Busbar, four studs',
      kind: 'busbar',
      shape: boxOf(140, 45, 45),
      massKg: 0.3,
      ports: {
        a: portAt([-52.5, 0, 22.5], 'up', 'dcPower', 'both'),
        b: portAt([-17.5, 0, 22.5], 'up', 'dcPower', 'both'),
        c: portAt([17.5, 0, 22.5], 'up', 'dcPower', 'both'),
        d: portAt([52.5, 0, 22.5], 'up', 'dcPower', 'both'),
      },
      electric: { dripProof: 'open' },
      services: { nuts: clear('nut', [0, 0, 22.5], 'up', [140, 60], 150, { needs: ['spanner'] }) },
    },
  ],
  ['aboard', 'drip-tray', { name: 'Drip tray', kind: 'other', shape: boxOf(400, 300, 40), massKg: 0.5, catchesL: 3 }],
];

/** Templates of fittings, in the order in which they are offered. */
export const FITTING_TEMPLATES: readonly Template[] = DRAFTS.map(([group, id, draft]) => ({ id, group, draft }));
