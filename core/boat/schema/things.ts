import { z } from 'zod';
import {
  amount,
  angle,
  direction,
  fraction,
  grade,
  id,
  length,
  localPoint,
  mass,
  name,
  point,
  record,
  sides,
  size,
  text,
} from './quantities';

export const THING_KINDS = [
  'pumpModule',
  'feedPump',
  'membrane',
  'controlStation',
  'strainer',
  'filter',
  'carbonFilter',
  'serviceValve',
  'flushValve',
  'tee',
  'ventedLoop',
  'diverter',
  'tap',
  'skinFitting',
  'seacock',
  'bulkheadUnion',
  'breaker',
  'fuse',
  'busbar',
  'sparesBox',
  'battery',
  'engine',
  'stuffingBox',
  'waterLock',
  'exhaust',
  'fuelTank',
  'waterTank',
  'holdingTank',
  'waterHeater',
  'freshPump',
  'sink',
  'deckWashPump',
  'head',
  'bilgePump',
  'steering',
  'emergencyTiller',
  'autopilotDrive',
  'compass',
  'inverterCharger',
  'dcPanel',
  'gasLocker',
  'fridge',
  'logFitting',
  'mastStep',
  'keelBolts',
  'chainplate',
  'joinery',
  'other',
] as const;

export const MEDIA = [
  'seaWater',
  'brine',
  'freshWater',
  'product',
  'gauge',
  'dcPower',
  'signal',
  'fuel',
  'waste',
  'air',
] as const;
export const medium = z.enum(MEDIA);

export const shape = z.discriminatedUnion('type', [
  z.looseObject({ type: z.literal('box'), sizeM: sides }),
  z.looseObject({
    type: z.literal('cylinder'),
    diameterM: size,
    lengthM: size,
    axis: z.enum(['x', 'y', 'z']).describe('local axis along which its length lies'),
  }),
]);

export const pose = z.looseObject({
  at: point.describe("centre of the thing's envelope"),
  yawDeg: angle.default(0).describe('about z, right-handed: the third turn'),
  pitchDeg: angle.default(0).describe('about y, right-handed (positive puts the forward end down): the second turn'),
  rollDeg: angle.default(0).describe('about x, right-handed: the first turn'),
  grade: grade.optional(),
});

export const port = z.looseObject({
  at: localPoint.describe('local: where the fitting meets the thing, on or outside its envelope'),
  direction: direction.describe('local: out of the thing, the way a hose leaves'),
  medium: medium.optional(),
  fitting: name.optional(),
  boreM: size.optional(),
  straightM: length
    .default(0)
    .describe('length that must stay straight from the port, beyond the rigid end of the hose'),
  role: z.enum(['in', 'out', 'both']).default('both'),
});

export const SERVICE_TASKS = [
  'bowlDrop',
  'elementWithdrawal',
  'impellerCover',
  'oilGlass',
  'oilFill',
  'oilDrain',
  'pumpHead',
  'basket',
  'lid',
  'caps',
  'handle',
  'breaker',
  'gauge',
  'panelFront',
  'panelBack',
  'tapCup',
  'liftOut',
  'air',
  'belt',
  'other',
] as const;

/** A service task asks for a clear prism: a face of the thing pushed out along a direction. */
export const service = z.looseObject({
  task: z.enum(SERVICE_TASKS),
  name: name.optional(),
  at: localPoint.describe('local: centre of the face from which the clear space starts'),
  direction: direction.describe('local: the way the bowl drops, the element comes out, the hand or the eye comes in'),
  acrossM: z.tuple([size, size]).describe('width and height of the space square to the direction'),
  across: direction
    .optional()
    .describe(
      'local: direction of the width; default horizontal: local x for a space that goes up or down, else square to the direction and to local z',
    ),
  clearM: size.describe('how far the space must be clear along the direction'),
  round: z.boolean().default(false).describe('the space is a cylinder of diameter acrossM[0]'),
  either: name.optional().describe('tasks of one thing that share this word are alternatives: one of them suffices'),
  needs: z
    .array(z.enum(['see', 'hand', 'twoHands', 'driver', 'spanner', 'strap', 'funnel', 'tray', 'cup', 'light']))
    .default([]),
  swingM: length.optional(),
  spillL: amount.optional(),
  intervalH: amount.optional().describe('running hours between'),
  intervalDays: amount.optional(),
  minutes: amount.optional(),
  tools: z.array(name).default([]),
  grade: grade.optional(),
});

/** A space that something moves through or keeps free, in the frame of its thing. */
export const keepOut = z.discriminatedUnion('type', [
  z.looseObject({ type: z.literal('box'), at: localPoint, sizeM: sides, why: text.optional() }),
  z.looseObject({
    type: z.literal('cylinder'),
    at: localPoint,
    diameterM: size,
    lengthM: size,
    axis: z.enum(['x', 'y', 'z']),
    why: text.optional(),
  }),
  z.looseObject({
    type: z.literal('sector'),
    at: localPoint.describe('local: hub, at half thickness'),
    axis: z.enum(['x', 'y', 'z']),
    radiusM: size,
    fromDeg: angle.describe('angles right-handed about the axis: from x about z, from z about y, from y about x'),
    toDeg: angle,
    thicknessM: size,
    why: text.optional(),
  }),
]);

export const zone = z.looseObject({
  kind: z.enum(['magnetic', 'ignition', 'gas', 'hot', 'spray', 'clear']),
  radiusM: size.describe('from the envelope'),
  notes: text.optional(),
});

export const electric = z.looseObject({
  sourceV: amount.optional().describe('this thing is a source of that voltage, under load'),
  shortCircuitA: amount.optional(),
  drawA: amount.optional().describe('current that this thing draws while it runs'),
  leastV: amount
    .optional()
    .describe('least voltage at its terminals; default 90 % of the source, or 97 % where the practice asks for it'),
  dropShare: fraction.optional().describe('share of the source voltage that may be lost on the way, both conductors'),
  ratingA: amount.optional().describe('of a fuse or breaker'),
  interruptsA: amount.optional(),
  dripProof: z.enum(['open', 'dripProof', 'sealed']).optional(),
  brushed: z.boolean().optional().describe('makes sparks: no gas or petrol vapour near it'),
  leakOhm: amount.optional().describe('resistance of its own, such as a fuse or contact, in the path'),
});

/** Which ports are joined inside the thing, and when. Without it all ports of one medium are joined. */
export const passage = z.looseObject({
  ports: z.tuple([id, id]).describe('joined ports; with oneWay the flow goes from the first to the second'),
  oneWay: z.boolean().default(false),
  when: z.array(id).optional().describe('names of the valve states in which it is open; default always'),
});

const thingShape = {
  name,
  tag: z.string().max(12).optional().describe('short mark on the drawing, capitals and digits'),
  kind: z.enum(THING_KINDS),
  shape,
  massKg: mass.default(0),
  ports: record(port).default({}),
  passages: record(passage).optional(),
  services: record(service).default({}),
  heatW: amount.optional(),
  greatestC: z.number().finite().optional().describe('hottest surroundings that it may run in'),
  electric: electric.optional(),
  zones: record(zone).optional(),
  micron: amount.optional().describe('of a filter'),
  valve: z
    .looseObject({
      states: z.array(id).min(1).describe('names of its positions'),
      normally: id.optional(),
      handle: z
        .looseObject({
          at: localPoint,
          leverM: length.default(0),
          swingDeg: angle.default(90),
          direction: direction.optional(),
        })
        .optional(),
      kind: z.enum(['ball', 'gate', 'threeWay', 'check', 'plug', 'other']).default('ball'),
    })
    .optional(),
  opensToSea: z
    .looseObject({
      at: localPoint.describe('local: where it opens in the hull'),
      boreM: size,
      use: z.enum(['intake', 'outlet', 'spare']).default('intake'),
    })
    .optional()
    .describe('of a through-hull: the hole in the hull'),
  sharedBy: z.array(name).optional().describe('who else uses this intake or outlet'),
  liquidL: amount.optional().describe('what it holds: a tank, a bowl'),
  boreM: size.optional(),
  bleeds: z.boolean().optional().describe('trapped air can be let out here'),
  flowLMin: amount.optional(),
  liftM: length.optional().describe('how high it can draw water'),
  grade: grade.optional(),
  priceEach: amount.optional(),
  source: text.optional().describe('where the values come from: data sheet, measured, typical'),
  notes: text.optional(),
};

export const fixture = z.looseObject({
  ...thingShape,
  pose,
  sweeps: record(keepOut).default({}).describe('space that it moves through: nothing may be there'),
  soft: z.boolean().default(false).describe('the envelope is no solid: runs may pass it'),
});

export const part = z.looseObject({
  ...thingShape,
  sweeps: record(keepOut).default({}),
  mounting: z
    .looseObject({
      face: z.enum(['+x', '-x', '+y', '-y', '+z', '-z']).optional(),
      screwM: length.optional(),
      screws: z.int().min(0).optional(),
      resilient: z.boolean().optional(),
      upright: z.boolean().optional(),
      tiltDeg: angle.optional(),
    })
    .optional(),
  group: name.optional().describe('parts of one group are placed together'),
});

export const end = z.looseObject({
  diameterM: size.optional().describe('largest diameter of the end fitting: it must pass the holes'),
  rigidM: length.optional().describe('length from the port that does not bend'),
  angleDeg: angle.default(0).describe('0 straight, 45 or 90 for an elbow end'),
  swivel: z.boolean().default(false),
  crimped: z.boolean().default(false).describe('fitted on before it passes the holes'),
  name: name.optional(),
});

export const lineKind = z.looseObject({
  name,
  what: z.enum(['hose', 'tube', 'cable']),
  outsideM: size.describe('outside diameter; of a pair of cables, of the bundle'),
  boreM: size.optional(),
  bendRadiusM: length.describe('least bend radius'),
  radiusTo: z
    .enum(['inside', 'centreline'])
    .default('inside')
    .describe('how the standard of the hose measures its radius'),
  crimpedEnds: z.boolean().default(false),
  end: end.optional().describe('usual end fitting'),
  pressureBar: amount.optional(),
  areaMm2: amount.optional().describe('copper area of one conductor'),
  conductors: z.int().min(1).max(8).optional(),
  supportM: size.optional().describe('greatest spacing of clips'),
  soldByM: length.optional().describe('sold in multiples of this'),
  soldLengthsM: z.array(size).optional(),
  pricePerM: amount.optional(),
  temperatureC: z.number().finite().optional(),
  suction: z.boolean().optional().describe('may be used on suction'),
  potable: z.boolean().optional(),
  source: text.optional(),
});

export const lineEnd = z.looseObject({ thing: id, port: id });

export const line = z.looseObject({
  name,
  kind: id.describe("a record of lineKinds, or one of the catalogue's kinds"),
  medium,
  from: lineEnd,
  to: lineEnd,
  ends: z.looseObject({ from: end.optional(), to: end.optional() }).default({}),
  suction: z
    .boolean()
    .optional()
    .describe('the water in it is drawn, not pushed; default: sea water on the way to the first pump'),
  supplied: z
    .looseObject({ lengthM: size, spareM: length.default(0.05), mayCut: z.boolean().default(false) })
    .optional()
    .describe('the hose comes in this length, over the ends of its fittings'),
  currentA: amount.optional(),
  existing: z.boolean().default(false).describe('aboard already'),
  tag: z.string().max(12).optional(),
  notes: text.optional(),
});
