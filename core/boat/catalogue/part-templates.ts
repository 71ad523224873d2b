import { FITTING_TEMPLATES } from './fitting-templates';
import { boxOf, clear, cylinderOf, type PartDraft, portAt, type Template, workedAt } from './templates';

/**
 * What a set is made of, to be added as a part and then edited. Lengths in millimetres: length along x, width along y,
 * height along z, before the turn.
 */
const vessel = (inch: number, length: number, massKg: number): PartDraft => {
  const end = length / 2;
  return {
    name: `Membrane vessel ${inch} in`,
    kind: 'membrane',
    shape: cylinderOf(80, length, 'x'),
    massKg,
    ports: {
      feed: portAt([-end, 20, 0], 'aft', 'seaWater', 'in', 9.5),
      brine: portAt([end, 20, 0], 'forward', 'brine', 'out', 9.5),
      product: portAt([-end, -20, 0], 'aft', 'product', 'out', 4.3),
    },
    services: {
      element: clear('elementWithdrawal', [end, 0, 0], 'forward', [80, 80], length - 50, {
        round: true,
        either: 'element',
        needs: ['twoHands'],
      }),
      elementAft: clear('elementWithdrawal', [-end, 0, 0], 'aft', [80, 80], length - 50, {
        round: true,
        either: 'element',
        needs: ['twoHands'],
      }),
      liftOut: clear('liftOut', [0, 0, 40], 'up', [length, 80], 150, { either: 'element', needs: ['twoHands'] }),
      cap: workedAt('caps', [end, 0, 0], 'forward', { name: 'Cap forward', needs: ['twoHands', 'spanner'] }),
      capAft: workedAt('caps', [-end, 0, 0], 'aft', { name: 'Cap aft', needs: ['twoHands', 'spanner'] }),
    },
  };
};

const filter = (name: string, kind: 'filter' | 'carbonFilter', micron: number, bore: number): PartDraft => ({
  name,
  kind,
  shape: boxOf(135, 135, 320),
  massKg: 2.6,
  micron,
  ports: {
    in: portAt([-67.5, 0, 130], 'aft', kind === 'filter' ? 'seaWater' : 'freshWater', 'in', bore),
    out: portAt([67.5, 0, 130], 'forward', kind === 'filter' ? 'seaWater' : 'freshWater', 'out', bore),
  },
  services: {
    bowl: clear(kind === 'filter' ? 'bowlDrop' : 'carbon', [0, 0, -160], 'down', [135, 135], 60, {
      needs: ['hand', 'strap', 'tray'],
      swingM: 0.2,
      spillL: 1.5,
      ...(kind === 'filter' ? { intervalH: 100 } : { intervalDays: 180 }),
      minutes: 10,
    }),
  },
});

const pumpServices = (length: number, width: number, height: number): NonNullable<PartDraft['services']> => ({
  impeller: clear('impellerCover', [length / 2, 0, 0], 'forward', [120, 120], 110, {
    needs: ['see', 'hand', 'driver'],
  }),
  head: workedAt('pumpHead', [-length / 2, -width / 8, 0], 'aft', { needs: ['twoHands', 'spanner'] }),
  oilGlass: clear('oilGlass', [0, -width / 2, 0], 'starboard', [60, 60], 150, { needs: ['see', 'light'] }),
  oilFill: clear('oilFill', [-length / 4, 0, height / 2], 'up', [80, 80], 150, { needs: ['funnel'] }),
});

const DRAFTS: readonly (readonly [Template['group'], string, PartDraft])[] = [
  [
    'watermaker',
    'pump-module-12v',
    {
      name: 'Pump module 12 V',
      kind: 'pumpModule',
      shape: boxOf(520, 300, 280),
      massKg: 25,
      ports: {
        in: portAt([-260, 80, 0], 'aft', 'seaWater', 'in', 19),
        pressure: portAt([-260, -80, 60], 'aft', 'seaWater', 'out', 9.5),
        power: portAt([-260, 0, 100], 'aft', 'dcPower', 'in'),
      },
      services: {
        ...pumpServices(520, 300, 280),
        oilDrain: clear('oilDrain', [-130, 0, -140], 'down', [80, 80], 60, { needs: ['spanner', 'tray'] }),
        air: clear('air', [0, 150, 0], 'port', [300, 200], 50),
      },
      heatW: 135,
      greatestC: 50,
      productLH: 25,
      workingBar: 55,
      flowLMin: 3,
      electric: { drawA: 32, dropShare: 0.1, brushed: true, drivenBy: 'dc' },
      mounting: { face: '-z', screwM: 0.03, screws: 4, resilient: true, upright: true, tiltDeg: 10 },
    },
  ],
  [
    'watermaker',
    'pump-module-recovery',
    {
      name: 'Pump module 12 V with energy recovery',
      kind: 'pumpModule',
      shape: boxOf(430, 400, 200),
      massKg: 16,
      ports: {
        in: portAt([-215, 120, 0], 'aft', 'seaWater', 'in', 16),
        pressure: portAt([215, 80, 0], 'forward', 'seaWater', 'out', 9.5),
        return: portAt([215, -80, 0], 'forward', 'brine', 'in', 9.5),
        brine: portAt([-215, -120, 0], 'aft', 'brine', 'out', 16),
        power: portAt([-215, 0, 60], 'aft', 'dcPower', 'in'),
      },
      services: {
        top: clear('pumpHead', [0, 0, 100], 'up', [430, 400], 120, { needs: ['twoHands', 'driver'] }),
        sideP: clear('air', [0, 200, 0], 'port', [430, 200], 50),
        sideS: clear('air', [0, -200, 0], 'starboard', [430, 200], 50),
      },
      heatW: 60,
      greatestC: 50,
      productLH: 35,
      workingBar: 55,
      flowLMin: 5,
      recoversEnergy: true,
      electric: { drawA: 12, dropShare: 0.1, brushed: true, drivenBy: 'dc' },
      mounting: { face: '-z', screwM: 0.03, screws: 4, upright: true },
    },
  ],
  [
    'watermaker',
    'pump-module-ac',
    {
      name: 'Pump module, mains',
      kind: 'pumpModule',
      shape: boxOf(560, 330, 330),
      massKg: 38,
      ports: {
        in: portAt([-280, 90, 0], 'aft', 'seaWater', 'in', 19),
        pressure: portAt([-280, -90, 60], 'aft', 'seaWater', 'out', 9.5),
      },
      services: {
        ...pumpServices(560, 330, 330),
        oilDrain: workedAt('oilDrain', [-140, 0, -165], 'down', { needs: ['spanner', 'tray'] }),
      },
      greatestC: 50,
      productLH: 100,
      workingBar: 55,
      flowLMin: 11,
      electric: { drivenBy: 'ac' },
      mounting: { face: '-z', screwM: 0.03, screws: 4, resilient: true, upright: true },
    },
  ],
  [
    'watermaker',
    'feed-pump',
    {
      name: 'Feed pump',
      kind: 'feedPump',
      shape: boxOf(210, 110, 115),
      massKg: 2.5,
      ports: {
        in: portAt([-105, 30, 20], 'aft', 'seaWater', 'in', 19),
        out: portAt([-105, -30, 20], 'aft', 'seaWater', 'out', 13),
        power: portAt([105, 0, 0], 'forward', 'dcPower', 'in'),
      },
      services: { head: clear('pumpHead', [-105, 0, 0], 'aft', [110, 115], 60, { needs: ['hand', 'driver'] }) },
      electric: { drawA: 8, dropShare: 0.1, brushed: true },
    },
  ],
  ['watermaker', 'membrane-21', vessel(21, 700, 7)],
  ['watermaker', 'membrane-40', vessel(40, 1190, 11)],
  [
    'watermaker',
    'control-station',
    {
      name: 'Control station',
      kind: 'controlStation',
      shape: boxOf(130, 300, 200),
      massKg: 3,
      ports: {
        pressureIn: portAt([65, 60, -40], 'forward', 'brine', 'in', 9.5),
        brine: portAt([65, -60, -40], 'forward', 'brine', 'out', 16),
        product: portAt([65, 90, 40], 'forward', 'product', 'in', 4.3),
        toTank: portAt([65, 30, 40], 'forward', 'product', 'out', 4.3),
        toTap: portAt([65, -30, 40], 'forward', 'product', 'out', 4.3),
        gauge: portAt([65, -90, 40], 'forward', 'gauge', 'in'),
        signal: portAt([65, 0, 0], 'forward', 'signal', 'both'),
      },
      valve: { states: ['reject', 'tank'], normally: 'reject', kind: 'threeWay' },
      passages: {
        pressure: { ports: ['pressureIn', 'brine'], oneWay: true },
        tank: { ports: ['product', 'toTank'], when: ['tank'] },
        tap: { ports: ['product', 'toTap'], when: ['reject'] },
      },
      services: {
        read: clear('gauge', [-65, 0, 0], 'aft', [300, 200], 400, { needs: ['see', 'hand'] }),
        behind: clear('panelBack', [65, 0, 0], 'forward', [300, 200], 150, { needs: ['hand'] }),
        regulate: workedAt('handle', [-65, 0, -50], 'aft', { name: 'Regulating valve', needs: ['see', 'hand'] }),
      },
    },
  ],
  [
    'filters',
    'strainer',
    {
      name: 'Sea strainer 3/4 in',
      kind: 'strainer',
      shape: boxOf(130, 120, 200),
      massKg: 2.5,
      ports: {
        in: portAt([-65, 0, 40], 'aft', 'seaWater', 'in', 19),
        out: portAt([65, 0, 40], 'forward', 'seaWater', 'out', 19),
      },
      services: {
        lid: clear('basket', [0, 0, 100], 'up', [120, 120], 150, {
          needs: ['see', 'hand'],
          intervalH: 20,
          minutes: 3,
        }),
      },
    },
  ],
  ['filters', 'filter-coarse', filter('Coarse filter 20 micron', 'filter', 20, 19)],
  ['filters', 'filter-fine', filter('Fine filter 5 micron', 'filter', 5, 19)],
  ['filters', 'filter-carbon', filter('Carbon filter', 'carbonFilter', 5, 13)],
  [
    'valves',
    'service-valve',
    {
      name: 'Three-way service valve 3/4 in',
      kind: 'serviceValve',
      shape: boxOf(110, 60, 90),
      massKg: 0.6,
      ports: {
        sea: portAt([-55, 0, -15], 'aft', 'seaWater', 'in', 19),
        service: portAt([0, -30, -15], 'starboard', 'seaWater', 'in', 19),
        out: portAt([55, 0, -15], 'forward', 'seaWater', 'out', 19),
      },
      passages: {
        sea: { ports: ['sea', 'out'], when: ['sea'] },
        service: { ports: ['service', 'out'], when: ['service'] },
      },
      valve: { states: ['sea', 'service'], normally: 'sea', kind: 'threeWay' },
      services: { lever: clear('handle', [0, 0, 45], 'up', [180, 180], 90, { needs: ['hand'] }) },
    },
  ],
  [
    'valves',
    'flush-valve',
    {
      name: 'Flush valve with timer',
      kind: 'flushValve',
      shape: boxOf(150, 100, 120),
      massKg: 0.8,
      ports: {
        in: portAt([-75, 0, 0], 'aft', 'freshWater', 'in', 13),
        out: portAt([75, 0, 0], 'forward', 'freshWater', 'out', 13),
      },
      valve: { states: ['shut', 'open'], normally: 'shut' },
      services: { hand: clear('handle', [0, 0, 60], 'up', [120, 120], 100, { needs: ['hand'] }) },
    },
  ],
  [
    'valves',
    'tee',
    {
      name: 'Tee 3/4 in',
      kind: 'tee',
      shape: boxOf(75, 50, 30),
      massKg: 0.1,
      ports: {
        a: portAt([-37.5, 0, 0], 'aft', 'seaWater', 'both', 19),
        b: portAt([37.5, 0, 0], 'forward', 'seaWater', 'both', 19),
        branch: portAt([0, 25, 0], 'port', 'seaWater', 'both', 19),
      },
      services: { clamps: clear('clamps', [0, -25, 0], 'starboard', [100, 60], 150, { needs: ['driver'] }) },
    },
  ],
  [
    'valves',
    'vented-loop',
    {
      name: 'Vented loop 3/4 in',
      kind: 'ventedLoop',
      shape: boxOf(120, 50, 140),
      massKg: 0.3,
      ports: {
        a: portAt([-45, 0, -70], 'down', 'brine', 'both', 19),
        b: portAt([45, 0, -70], 'down', 'brine', 'both', 19),
      },
      bleeds: true,
      services: { cap: clear('other', [0, 0, 70], 'up', [80, 80], 80, { name: 'Cap of the vent', needs: ['hand'] }) },
    },
  ],
  [
    'valves',
    'diverter',
    {
      name: 'Diverter',
      kind: 'diverter',
      shape: boxOf(70, 45, 60),
      massKg: 0.4,
      ports: {
        in: portAt([35, 0, 0], 'forward', 'product', 'in', 4.3),
        tank: portAt([35, 0, 20], 'forward', 'product', 'out', 4.3),
        tap: portAt([35, 0, -20], 'forward', 'product', 'out', 4.3),
      },
      passages: {
        tank: { ports: ['in', 'tank'], when: ['tank'], oneWay: true },
        tap: { ports: ['in', 'tap'], when: ['reject'], oneWay: true },
      },
      valve: { states: ['reject', 'tank'], normally: 'reject', kind: 'threeWay' },
      services: { knob: clear('handle', [-35, 0, 0], 'aft', [80, 80], 100, { needs: ['hand', 'see'] }) },
    },
  ],
  [
    'valves',
    'test-tap',
    {
      name: 'Test tap',
      kind: 'tap',
      shape: boxOf(60, 45, 60),
      massKg: 0.2,
      ports: { in: portAt([0, 0, -30], 'down', 'product', 'in', 4.3) },
      services: { cup: clear('tapCup', [-30, 0, 0], 'aft', [100, 200], 100, { needs: ['cup', 'hand'] }) },
    },
  ],
  [
    'valves',
    'brine-skin-fitting',
    {
      name: 'Brine skin fitting',
      kind: 'skinFitting',
      shape: cylinderOf(45, 70, 'y'),
      massKg: 0.2,
      ports: { in: portAt([0, -35, 0], 'starboard', 'brine', 'in', 16) },
      opensToSea: { at: [0, 0.035, 0], boreM: 0.016, use: 'outlet' },
      services: { nut: clear('nut', [0, -35, 0], 'starboard', [90, 90], 120, { needs: ['spanner'] }) },
    },
  ],
  [
    'electric',
    'breaker',
    {
      name: 'Breaker 50 A',
      kind: 'breaker',
      shape: boxOf(80, 50, 60),
      massKg: 0.3,
      ports: {
        in: portAt([-40, 0, 0], 'aft', 'dcPower', 'in'),
        out: portAt([40, 0, 0], 'forward', 'dcPower', 'out'),
      },
      electric: { ratingA: 50, interruptsA: 3000 },
      services: { front: clear('breaker', [0, 0, 30], 'up', [80, 60], 250, { needs: ['hand', 'driver'] }) },
    },
  ],
  [
    'electric',
    'fuse-block',
    {
      name: 'High-rupture fuse block',
      kind: 'fuse',
      shape: boxOf(125, 60, 60),
      massKg: 0.3,
      ports: {
        in: portAt([-62.5, 0, 0], 'aft', 'dcPower', 'in'),
        out: portAt([62.5, 0, 0], 'forward', 'dcPower', 'out'),
      },
      electric: { ratingA: 60, interruptsA: 20000 },
      services: { cover: clear('lid', [0, 0, 30], 'up', [125, 60], 250, { needs: ['hand', 'driver'] }) },
    },
  ],
  [
    'aboard',
    'spares-box',
    {
      name: 'Spares box',
      kind: 'sparesBox',
      shape: boxOf(400, 300, 250),
      massKg: 8,
      services: { lift: clear('liftOut', [0, 0, 125], 'up', [400, 300], 250, { needs: ['twoHands'] }) },
    },
  ],
];

/** Templates of parts, in the order in which they are offered. */
export const PART_TEMPLATES: readonly Template[] = [
  ...DRAFTS.map(([group, id, draft]): Template => ({ id, group, draft })),
  ...FITTING_TEMPLATES,
];
