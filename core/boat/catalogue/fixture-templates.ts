import { ABOARD_TEMPLATES } from './aboard-templates';
import { boxOf, clear, cylinderOf, type PartDraft, portAt, type Template, workedAt } from './templates';

/** What is usually aboard of an 11 m boat, to be added as a fixture and then measured. Lengths in millimetres. */
const seacock = (name: string, tall: number, pad: number, massKg: number, bore: number, lever: number): PartDraft => ({
  name,
  kind: 'seacock',
  shape: boxOf(pad, pad, tall),
  massKg,
  ports: { out: portAt([0, 0, tall / 2], 'up', 'seaWater', 'both', bore) },
  opensToSea: { at: [0, 0, -tall / 2000], boreM: bore / 1000, use: 'intake', material: 'bronze', backed: true },
  valve: {
    states: ['open', 'shut'],
    // open while what hangs on it is used: a joint behind it is then no risk for the rest of the year
    normally: 'shut',
    kind: 'ball',
    handle: { at: [0, 0, tall / 4000], leverM: lever / 1000, swingDeg: 90, direction: [1, 0, 0] },
  },
  services: { lever: clear('handle', [pad / 2, 0, 0], 'forward', [2 * lever, 0.6 * tall], lever, { needs: ['hand'] }) },
});

const tank = (
  name: string,
  kind: 'waterTank' | 'fuelTank' | 'holdingTank',
  size: readonly [number, number, number],
  massKg: number,
  litres: number,
): PartDraft => {
  const [length, width, height] = size;
  const medium = kind === 'waterTank' ? 'freshWater' : kind === 'fuelTank' ? 'fuel' : 'waste';
  return {
    name,
    kind,
    shape: boxOf(length, width, height),
    massKg,
    liquidL: litres,
    ports: {
      fill: portAt([length / 2 - 60, 0, height / 2], 'up', medium, 'in', 13),
      vent: portAt([length / 2 - 120, 0, height / 2], 'up', 'air', 'both', 16),
      out: portAt([-length / 2, 0, -height / 2 + 40], 'aft', medium, 'out', 13),
    },
    services: { lid: clear('tankLid', [0, 0, height / 2], 'up', [250, 250], 220, { needs: ['see', 'twoHands'] }) },
  };
};

const DRAFTS: readonly (readonly [string, PartDraft])[] = [
  ['seacock-19', seacock('Seacock 3/4 in', 150, 130, 1.5, 19, 110)],
  ['seacock-38', seacock('Seacock 1 1/2 in', 220, 180, 4, 38, 150)],
  [
    'battery-lithium',
    {
      name: 'House bank, lithium',
      kind: 'battery',
      shape: boxOf(330, 350, 220),
      massKg: 26,
      ports: { posts: portAt([165, 0, 90], 'forward', 'dcPower', 'both') },
      electric: { sourceV: 12.8, shortCircuitA: 20000, chemistry: 'lithium', capacityAh: 200 },
      services: {
        posts: clear('batteryPosts', [0, 0, 110], 'up', [330, 350], 150, { needs: ['see', 'twoHands', 'spanner'] }),
        liftOut: clear('liftOut', [0, 0, 110], 'up', [330, 350], 260, { needs: ['twoHands'] }),
      },
    },
  ],
  [
    'battery-starter',
    {
      name: 'Starter battery',
      kind: 'battery',
      shape: boxOf(280, 175, 190),
      massKg: 18,
      ports: { posts: portAt([140, 0, 80], 'forward', 'dcPower', 'both') },
      electric: { sourceV: 12.4, shortCircuitA: 1500, chemistry: 'floodedLead', capacityAh: 70 },
      services: {
        posts: clear('batteryPosts', [0, 0, 95], 'up', [280, 175], 150, { needs: ['see', 'twoHands', 'spanner'] }),
        liftOut: workedAt('liftOut', [0, 0, 95], 'up', { acrossM: [0.28, 0.175], needs: ['twoHands'] }),
      },
    },
  ],
  [
    'engine-30hp',
    {
      name: 'Diesel 30 hp with gearbox',
      kind: 'engine',
      shape: boxOf(850, 520, 640),
      massKg: 185,
      heatW: 2000,
      ports: {
        rawWater: portAt([425, -120, -60], 'forward', 'seaWater', 'in', 25),
        exhaust: portAt([-200, 260, 60], 'port', 'seaWater', 'out', 50),
      },
      zones: { hot: { kind: 'hot', radiusM: 0.15 } },
      services: {
        belts: clear('belt', [425, 0, 0], 'forward', [400, 500], 300, { needs: ['twoHands', 'spanner'] }),
        filter: clear('oilFilter', [0, 260, 0], 'port', [400, 400], 250, { needs: ['hand', 'strap', 'tray'] }),
        oilFill: clear('oilFill', [100, 0, 320], 'up', [150, 150], 200, { needs: ['funnel'] }),
        fuelFilter: workedAt('fuelFilter', [200, 260, 100], 'port', { needs: ['see', 'hand', 'strap', 'tray'] }),
        dipstick: workedAt('dipstick', [-150, 200, 320], 'up', { acrossM: [0.03, 0.03], needs: ['hand', 'see'] }),
        impeller: workedAt('impellerCover', [425, -120, -60], 'forward', {
          name: 'Impeller of the sea-water pump',
          needs: ['see', 'hand', 'driver'],
        }),
      },
    },
  ],
  ['tank-water-200', tank('Water tank 200 L', 'waterTank', [1100, 500, 420], 220, 200)],
  ['tank-fuel-130', tank('Fuel tank 130 L', 'fuelTank', [900, 500, 350], 135, 130)],
  ['tank-holding-60', tank('Holding tank 60 L', 'holdingTank', [600, 350, 350], 68, 60)],
  [
    'water-heater',
    {
      name: 'Water heater 22 L',
      kind: 'waterHeater',
      shape: cylinderOf(350, 480, 'x'),
      massKg: 32,
      liquidL: 22,
      ports: {
        in: portAt([-240, -60, -100], 'aft', 'freshWater', 'in', 15),
        out: portAt([-240, 60, 100], 'aft', 'freshWater', 'out', 15),
      },
      services: {
        element: clear('anode', [240, 0, 0], 'forward', [150, 150], 300, {
          name: 'Element and anode',
          needs: ['twoHands', 'spanner'],
        }),
      },
    },
  ],
  [
    'fresh-pump',
    {
      name: 'Fresh-water pump',
      kind: 'freshPump',
      shape: boxOf(220, 130, 115),
      massKg: 3,
      flowLMin: 12,
      ports: {
        in: portAt([-110, 30, 0], 'aft', 'freshWater', 'in', 13),
        out: portAt([-110, -30, 0], 'aft', 'freshWater', 'out', 13),
        power: portAt([110, 0, 0], 'forward', 'dcPower', 'in'),
      },
      electric: { drawA: 7, dropShare: 0.1, brushed: true },
      services: { head: workedAt('pumpHead', [-110, 0, 0], 'aft', { needs: ['hand', 'driver'] }) },
    },
  ],
  [
    'galley-sink',
    {
      name: 'Galley sink',
      kind: 'sink',
      shape: boxOf(360, 330, 180),
      massKg: 4,
      ports: { drain: portAt([0, 0, -90], 'down', 'waste', 'out', 38) },
      services: { trap: workedAt('clamps', [0, 0, -90], 'aft', { name: 'Clamps of the drain' }) },
    },
  ],
  [
    'bilge-pump',
    {
      name: 'Electric bilge pump',
      kind: 'bilgePump',
      shape: cylinderOf(120, 170, 'z'),
      massKg: 1.2,
      ports: { out: portAt([60, 0, 40], 'forward', 'waste', 'out', 28) },
      services: { liftOut: clear('liftOut', [0, 0, 85], 'up', [120, 120], 250, { round: true, needs: ['hand'] }) },
    },
  ],
  [
    'quadrant',
    {
      name: 'Steering quadrant',
      kind: 'steering',
      shape: cylinderOf(60, 80, 'z'),
      massKg: 6,
      sweeps: {
        arc: {
          type: 'sector',
          at: [0, 0, 0],
          axis: 'z',
          radiusM: 0.27,
          fromDeg: 100,
          toDeg: 260,
          thicknessM: 0.12,
          why: 'the quadrant swings here',
        },
      },
      services: {
        bolts: workedAt('nut', [0, 0, 40], 'up', {
          name: 'Bolts and wires',
          needs: ['see', 'spanner'],
          intervalDays: 365,
          minutes: 10,
        }),
      },
    },
  ],
  [
    'compass',
    {
      name: 'Autopilot compass',
      kind: 'compass',
      shape: cylinderOf(110, 60, 'z'),
      massKg: 0.5,
      zones: { magnetic: { kind: 'magnetic', radiusM: 1 } },
    },
  ],
  [
    'inverter-charger',
    {
      name: 'Inverter-charger',
      kind: 'inverterCharger',
      shape: boxOf(130, 210, 360),
      massKg: 14,
      ports: { dc: portAt([0, 0, -180], 'down', 'dcPower', 'both') },
      services: { air: clear('air', [0, 0, 180], 'up', [130, 210], 100) },
    },
  ],
  [
    'dc-panel',
    {
      name: 'DC panel',
      kind: 'dcPanel',
      shape: boxOf(130, 400, 300),
      massKg: 5,
      ports: { feed: portAt([65, 0, -100], 'forward', 'dcPower', 'in') },
      services: {
        door: clear('panelFront', [-65, 0, 0], 'aft', [400, 300], 400, { needs: ['see', 'hand'] }),
        behind: workedAt('panelBack', [65, 0, 0], 'forward', { needs: ['see', 'hand', 'spanner'] }),
      },
    },
  ],
  [
    'gas-locker',
    {
      name: 'Gas locker, two bottles',
      kind: 'gasLocker',
      shape: boxOf(650, 350, 520),
      massKg: 22,
      zones: { ignition: { kind: 'ignition', radiusM: 0.5 } },
      services: {
        shut: workedAt('handle', [150, 0, 260], 'up', { name: 'Valves of the bottles', needs: ['hand'] }),
        bottle: workedAt('liftOut', [150, 0, 260], 'up', {
          name: 'Bottle out',
          acrossM: [0.25, 0.25],
          needs: ['twoHands'],
          withdrawM: 0.35,
          massKg: 10,
          minutes: 5,
          intervalDays: 45,
        }),
      },
    },
  ],
  [
    'log-fitting',
    {
      name: 'Log fitting, unused',
      kind: 'logFitting',
      shape: cylinderOf(55, 140, 'z'),
      massKg: 0.4,
      opensToSea: { at: [0, 0, -0.07], boreM: 0.042, use: 'spare' },
      services: { withdraw: clear('other', [0, 0, 70], 'up', [80, 80], 300, { needs: ['hand'], withdrawM: 0.3 }) },
    },
  ],
];

/** What a kind belongs to, for whoever looks for it. */
function groupOf(kind: PartDraft['kind']): Template['group'] {
  if (['engine', 'fuelTank', 'steering', 'compass'].includes(kind)) return 'engine';
  if (['battery', 'inverterCharger', 'dcPanel'].includes(kind)) return 'electric';
  return kind === 'gasLocker' ? 'aboard' : 'plumbing';
}

/** Templates of fixtures, in the order in which they are offered. */
export const FIXTURE_TEMPLATES: readonly Template[] = [
  ...DRAFTS.map(([id, draft]): Template => ({ id, group: groupOf(draft.kind), draft })),
  ...ABOARD_TEMPLATES,
];
