import { boxOf, clear, cylinderOf, type PartDraft, portAt, type Template, workedAt } from './templates';

/**
 * What else takes room aboard an 11 m boat: engine, plumbing, steering, structure. Typical sizes from memory, common practice;
 * lengths in millimetres.
 */
const keepOut = (
  name: string,
  kind: PartDraft['kind'],
  size: readonly [number, number, number],
  why: string,
): PartDraft => ({
  name,
  kind,
  shape: boxOf(...size),
  notes: why,
});

const ENGINE: readonly (readonly [string, PartDraft])[] = [
  [
    'stuffing-box',
    {
      name: 'Shaft, coupling and stuffing box',
      kind: 'stuffingBox',
      shape: boxOf(300, 200, 200),
      massKg: 8,
      services: {
        nuts: clear('stuffingBox', [0, 0, 100], 'up', [250, 250], 250, {
          name: 'gland nuts',
          needs: ['see', 'light', 'twoHands', 'spanner'],
        }),
      },
      zones: { turning: { kind: 'clear', radiusM: 0.05 } },
    },
  ],
  [
    'water-lock',
    {
      name: 'Water-lock',
      kind: 'waterLock',
      shape: boxOf(300, 300, 350),
      massKg: 5,
      liquidL: 10,
      ports: {
        in: portAt([-150, 0, 100], 'aft', 'seaWater', 'in', 50),
        out: portAt([0, 0, 175], 'up', 'seaWater', 'out', 50),
      },
      zones: { hot: { kind: 'hot', radiusM: 0.15 } },
      services: {
        drain: workedAt('nut', [150, 0, -140], 'forward', { name: 'Drain plug', needs: ['spanner', 'tray'] }),
      },
    },
  ],
  [
    'exhaust-outlet',
    {
      name: 'Exhaust skin fitting',
      kind: 'exhaust',
      shape: cylinderOf(90, 120, 'x'),
      massKg: 0.8,
      ports: { in: portAt([60, 0, 0], 'forward', 'seaWater', 'in', 50) },
      opensToSea: { at: [-0.06, 0, 0], boreM: 0.05, use: 'outlet', discharges: ['exhaust', 'cooling'] },
      zones: { hot: { kind: 'hot', radiusM: 0.15 } },
    },
  ],
  [
    'autopilot-drive',
    {
      name: 'Autopilot drive',
      kind: 'autopilotDrive',
      shape: boxOf(550, 120, 120),
      massKg: 8,
      ports: { power: portAt([-275, 0, 0], 'aft', 'dcPower', 'in') },
      electric: { drawA: 6, brushed: true },
      zones: { magnetic: { kind: 'magnetic', radiusM: 0.5 } },
    },
  ],
  [
    'emergency-tiller',
    {
      name: 'Emergency tiller head under its deck plate',
      kind: 'emergencyTiller',
      shape: cylinderOf(130, 60, 'z'),
      massKg: 2,
      services: {
        tiller: clear('emergencyTiller', [0, 0, 30], 'up', [150, 150], 400, { name: 'tiller on', needs: ['twoHands'] }),
      },
    },
  ],
];

const PLUMBING: readonly (readonly [string, PartDraft])[] = [
  [
    'head',
    {
      name: 'Head',
      kind: 'head',
      shape: boxOf(480, 430, 360),
      massKg: 11,
      ports: {
        in: portAt([-240, 150, -120], 'aft', 'seaWater', 'in', 19),
        out: portAt([-240, -60, -120], 'aft', 'waste', 'out', 38),
      },
      services: {
        seals: clear('seals', [0, 215, -60], 'port', [300, 250], 300, {
          name: 'pump seals',
          needs: ['twoHands', 'spanner'],
        }),
      },
    },
  ],
  [
    'deck-wash-pump',
    {
      name: 'Deck-wash pump',
      kind: 'deckWashPump',
      shape: boxOf(200, 120, 150),
      massKg: 0.8,
      ports: {
        in: portAt([-100, 30, 0], 'aft', 'seaWater', 'in', 13),
        out: portAt([-100, -30, 0], 'aft', 'seaWater', 'out', 13),
        power: portAt([100, 0, 0], 'forward', 'dcPower', 'in'),
      },
      flowLMin: 15,
      electric: { drawA: 8, brushed: true },
    },
  ],
  [
    'accumulator',
    {
      name: 'Accumulator of the fresh-water pump',
      kind: 'other',
      shape: cylinderOf(130, 250, 'z'),
      massKg: 1,
      liquidL: 1,
      ports: { join: portAt([0, 0, -125], 'down', 'freshWater', 'both', 13) },
    },
  ],
  [
    'bilge-pump-manual',
    {
      name: 'Manual bilge pump',
      kind: 'bilgePump',
      shape: boxOf(250, 200, 180),
      massKg: 1.5,
      flowLMin: 45,
      ports: {
        in: portAt([0, 60, -90], 'down', 'waste', 'in', 38),
        out: portAt([0, -60, -90], 'down', 'waste', 'out', 38),
      },
      services: {
        diaphragm: clear('seals', [0, 0, 90], 'up', [200, 200], 200, {
          name: 'Diaphragm',
          needs: ['twoHands', 'driver'],
        }),
      },
    },
  ],
  [
    'fridge-compressor',
    {
      name: 'Fridge compressor',
      kind: 'fridge',
      shape: boxOf(320, 200, 170),
      massKg: 8,
      heatW: 60,
      ports: { power: portAt([-160, 0, 0], 'aft', 'dcPower', 'in') },
      electric: { drawA: 5 },
      services: { air: clear('air', [0, 100, 0], 'port', [320, 170], 100) },
    },
  ],
  [
    'outlet-skin-fitting',
    {
      name: 'Outlet skin fitting, sink or cockpit',
      kind: 'skinFitting',
      shape: cylinderOf(60, 90, 'y'),
      massKg: 0.4,
      ports: { in: portAt([0, -45, 0], 'starboard', 'waste', 'in', 38) },
      opensToSea: { at: [0, 0.045, 0], boreM: 0.038, use: 'outlet' },
    },
  ],
];

/** What nothing may be led through or screwed to, and where a spanner must reach. */
const STRUCTURE: readonly (readonly [string, PartDraft])[] = [
  ['mast-step', keepOut('Mast step', 'mastStep', [300, 250, 120], 'Keep clear: it carries the mast.')],
  [
    'keel-bolts',
    {
      ...keepOut('Keel bolts', 'keelBolts', [120, 250, 60], 'Nuts are tightened and looked at here.'),
      services: {
        nut: clear('keelBolts', [0, 0, 30], 'up', [150, 250], 300, {
          name: 'spanner on the nuts',
          needs: ['see', 'light', 'twoHands', 'spanner'],
        }),
      },
    },
  ],
  [
    'chainplate-knee',
    {
      ...keepOut('Chainplate knee', 'chainplate', [300, 60, 500], 'Keep clear: it carries a shroud.'),
      services: {
        bolts: clear('nut', [0, 30, 0], 'port', [250, 400], 150, { name: 'bolts', needs: ['hand', 'spanner'] }),
      },
    },
  ],
  [
    'floor',
    {
      ...keepOut('Floor frame', 'joinery', [60, 600, 150], 'Structure: limber holes 25 mm at the bottom stay open.'),
      services: { limbers: workedAt('limbers', [30, 0, -60], 'forward') },
    },
  ],
  ['shelf', keepOut('Shelf or pad of ply', 'joinery', [500, 350, 18], 'What heavy parts are screwed to.')],
];

const ELECTRIC: readonly (readonly [string, PartDraft])[] = [
  [
    'battery-flooded',
    {
      name: 'House bank, flooded lead, 2 x 110 Ah',
      kind: 'battery',
      shape: boxOf(350, 360, 240),
      massKg: 56,
      ports: { posts: portAt([175, 0, 100], 'forward', 'dcPower', 'both') },
      electric: { sourceV: 12.2, chemistry: 'floodedLead', capacityAh: 220, shortCircuitA: 3000 },
      services: {
        posts: clear('batteryPosts', [0, 0, 120], 'up', [350, 360], 150, { needs: ['see', 'twoHands', 'spanner'] }),
        water: workedAt('other', [0, 0, 120], 'up', {
          name: 'Topped up with water',
          needs: ['see', 'light', 'hand', 'funnel'],
          minutes: 15,
          intervalDays: 60,
        }),
        liftOut: workedAt('liftOut', [0, 0, 120], 'up', {
          acrossM: [0.175, 0.35],
          needs: ['twoHands'],
          massKg: 28,
        }),
      },
    },
  ],
  [
    'solar-panel',
    {
      name: 'Solar panel 160 W',
      kind: 'other',
      shape: boxOf(1480, 670, 35),
      massKg: 10,
      ports: { power: portAt([0, 0, -17.5], 'down', 'dcPower', 'out') },
      electric: { solarW: 160 },
    },
  ],
];

const from = (group: Template['group'], drafts: readonly (readonly [string, PartDraft])[]): readonly Template[] =>
  drafts.map(([id, draft]) => ({ id, group, draft }));

/** Templates of fixtures by what they belong to, in the order in which they are offered. */
export const ABOARD_TEMPLATES: readonly Template[] = [
  ...from('engine', ENGINE),
  ...from('plumbing', PLUMBING),
  ...from('electric', ELECTRIC),
  ...from('structure', STRUCTURE),
];
