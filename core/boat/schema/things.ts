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
    diameterM: size.describe('metres'),
    lengthM: size.describe('metres'),
    axis: z.enum(['x', 'y', 'z']).describe('local axis along which its length lies'),
  }),
]);

export const pose = z.looseObject({
  at: point.describe("centre of the thing's envelope, metres, boat frame"),
  yawDeg: angle
    .default(0)
    .describe('degrees about z, right-handed (90 points the forward end to port): the third turn; default 0'),
  pitchDeg: angle
    .default(0)
    .describe('degrees about y, right-handed (positive puts the forward end down): the second turn; default 0'),
  rollDeg: angle
    .default(0)
    .describe('degrees about x, right-handed (positive puts the port side up): the first turn; default 0'),
  grade: grade.optional(),
});

export const port = z.looseObject({
  at: localPoint.describe('local: where the fitting meets the thing, on or outside its envelope, metres'),
  direction: direction.describe('local: out of the thing, the way a hose leaves'),
  medium: medium.optional().describe('what flows; default that of the line on it'),
  fitting: name.optional().describe('thread or barb'),
  boreM: size.optional().describe('bore, metres'),
  straightM: length
    .default(0)
    .describe('length that must stay straight from the port, beyond the rigid end of the hose, metres; default 0'),
  role: z.enum(['in', 'out', 'both']).default('both').describe('way of the flow through the port; default both'),
  serves: z
    .enum(['fill', 'draw', 'vent', 'overflow', 'drain'])
    .optional()
    .describe(
      'of a tank: what the port is for. A vent lets air out while it fills, an overflow lets water out when it is full; default: a port of air is the vent, and without an overflow the vent is the overflow too',
    ),
  openEnd: z
    .boolean()
    .optional()
    .describe(
      'water that comes back through it runs into the boat: a basin, a vent, an overflow, a loose end. A line from there to a through-hull under the heeled water must rise high enough above that, by its run or a vented loop, unless this port stays above it; default: so at sinks, heads, tanks, bilge pumps and taps, at nothing else',
    ),
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

/** What must be looked at before a hole is made through the skin: outside, and in the shell and behind it. */
export const HOLE_CHECKS = ['stringer', 'core', 'keel', 'tabbing', 'slingLine', 'strut', 'flangeRoom'] as const;

/** What may come out of a through-hull. */
export const DISCHARGES = ['head', 'sink', 'exhaust', 'cooling', 'bilge', 'brine', 'deck'] as const;

/** A service task asks for a clear prism: a face of the thing pushed out along a direction. */
export const service = z.looseObject({
  task: z.enum(SERVICE_TASKS).describe('what must be done'),
  name: name.optional().describe('words for it'),
  at: localPoint.describe('local: centre of the face from which the clear space starts'),
  direction: direction.describe('local: the way the bowl drops, the element comes out, the hand or the eye comes in'),
  acrossM: z.tuple([size, size]).describe('[width, height] of the space square to the direction, metres'),
  across: direction
    .optional()
    .describe(
      'local: direction of the width; default horizontal: local x for a space that goes up or down, else square to the direction and to local z',
    ),
  clearM: size.describe('how far the space must be clear along the direction, metres'),
  round: z.boolean().default(false).describe('the space is a cylinder of diameter acrossM[0]; default false: a box'),
  either: name.optional().describe('tasks of one thing that share this word are alternatives: one of them suffices'),
  needs: z
    .array(z.enum(['see', 'hand', 'twoHands', 'driver', 'spanner', 'strap', 'funnel', 'tray', 'cup', 'light']))
    .default([])
    .describe('what the person needs for it'),
  swingM: length.optional().describe('radius in which a tool or strap swings, metres'),
  spillL: amount
    .optional()
    .describe('liquid that runs out, litres; default: of the bowl of a filter or strainer what it holds (liquidL)'),
  intervalH: amount.optional().describe('running hours between'),
  intervalDays: amount.optional().describe('days between'),
  minutes: amount.optional().describe('how long it takes'),
  tools: z.array(name).default([]).describe('tools by name'),
  grade: grade.optional(),
});

/** A space that something moves through or keeps free, in the frame of its thing. */
export const keepOut = z.discriminatedUnion('type', [
  z.looseObject({
    type: z.literal('box'),
    at: localPoint,
    sizeM: sides,
    why: text.optional().describe('what moves there'),
  }),
  z.looseObject({
    type: z.literal('cylinder'),
    at: localPoint,
    diameterM: size.describe('metres'),
    lengthM: size.describe('metres'),
    axis: z.enum(['x', 'y', 'z']).describe('local axis along which its length lies'),
    why: text.optional().describe('what moves there'),
  }),
  z.looseObject({
    type: z.literal('sector'),
    at: localPoint.describe('local: hub, at half thickness'),
    axis: z.enum(['x', 'y', 'z']).describe('local axis about which it swings'),
    radiusM: size.describe('from the axis, metres'),
    fromDeg: angle.describe(
      'degrees, right-handed about the axis: from x about z, from z about y, from y about x; below toDeg',
    ),
    toDeg: angle.describe('degrees, above fromDeg'),
    thicknessM: size.describe('along the axis, metres'),
    why: text.optional().describe('what moves there'),
  }),
]);

export const zone = z.looseObject({
  kind: z
    .enum(['magnetic', 'ignition', 'gas', 'hot', 'spray', 'clear'])
    .describe(
      'what the zone is about. magnetic: of a compass, how far magnets and cables keep off; of another thing, how far a compass keeps off it. gas and ignition: gas or petrol vapour may be about, nothing in it may spark. hot: gets that hot about it',
    ),
  radiusM: size.describe('from the envelope, metres: what is nearer with any part of its own envelope lies in it'),
  notes: text.optional().describe('free text'),
});

export const electric = z.looseObject({
  sourceV: amount
    .optional()
    .describe(
      'this thing is a source of that voltage, volts, under load; of 50 V or more it counts as mains, which only an electrician may judge',
    ),
  shortCircuitA: amount
    .optional()
    .describe(
      'of a source: short-circuit current of the whole bank, amperes; fuses and breakers behind it must interrupt it. Without it a lithium bank counts as 20 kA, and no other is judged',
    ),
  chemistry: z
    .enum(['floodedLead', 'sealedLead', 'lithium'])
    .optional()
    .describe(
      'of a battery: decides the usable share, and the short-circuit current where it is not given; flooded lead gives off gas and needs a vent',
    ),
  capacityAh: amount
    .optional()
    .describe(
      "of a battery: rated capacity of the whole bank, ampere-hours (of lead over 20 hours); for the day's budget",
    ),
  usableShare: fraction
    .optional()
    .describe(
      'of a battery: share of capacityAh that is drawn before it is charged again; default 0.5 of lead, 0.8 of lithium',
    ),
  solarW: amount
    .optional()
    .describe("of a solar panel (kind other): rated power, watts; for the day's budget, see needs"),
  drivenBy: z
    .enum(['dc', 'ac', 'engine'])
    .optional()
    .describe(
      'what turns its motor: direct current (default), alternating current of a generator, inverter or the shore, or a belt or clutch on the engine; the last two are for an electrician or a mechanic to judge',
    ),
  isolates: z
    .boolean()
    .optional()
    .describe(
      'cuts off by hand what is behind it; default: a breaker, a d.c. panel and a fuse (it can be pulled) do, nothing else does',
    ),
  ignitionProtected: z
    .boolean()
    .optional()
    .describe('built not to ignite gas or petrol vapour around it; default false'),
  drawA: amount.optional().describe('current that this thing draws while it runs, amperes'),
  leastV: amount
    .optional()
    .describe(
      'least voltage at its terminals, volts; default 90 % of the source, or 97 % where the practice asks for it',
    ),
  dropShare: fraction
    .optional()
    .describe('share of the source voltage that may be lost on the way, both conductors, 0 to 1'),
  ratingA: amount
    .optional()
    .describe(
      'of a fuse or breaker, amperes: at most 150 % of the ampacity of the smallest conductor that it protects, and no less than the current in it',
    ),
  interruptsA: amount
    .optional()
    .describe(
      'of a fuse or breaker: current that it can interrupt, amperes; no less than the short-circuit current of the bank',
    ),
  dripProof: z
    .enum(['open', 'dripProof', 'sealed'])
    .optional()
    .describe(
      'how well it stands water: open is harmed by drips from above, open and dripProof by standing under water, sealed by neither; default: batteries, inverters, panels, fuses, breakers, busbars and brushed motors are open, of others that draw current it must be entered',
    ),
  wetM: length
    .optional()
    .describe(
      'how far water must stand above the lowest point of its envelope to reach what it harms (terminals, windings), metres; default 0: the lowest point counts',
    ),
  brushed: z
    .boolean()
    .optional()
    .describe(
      'of a motor or relay: makes sparks, so no gas or petrol vapour may reach it; its magnets count for a compass',
    ),
  leakOhm: amount.optional().describe('resistance of its own, such as a fuse or contact, in the path, ohm'),
});

/**
 * Which ports are joined inside the thing, and when. Without it all ports of one medium are joined; of a three-way valve each port that is
 * called like a state is joined, in that state, to the port that is called like none.
 */
export const passage = z.looseObject({
  ports: z.tuple([id, id]).describe('joined ports; with oneWay the flow goes from the first to the second'),
  oneWay: z
    .boolean()
    .default(false)
    .describe(
      'holds back what would flow from the second to the first, as a check valve or an air gap does; default false',
    ),
  when: z.array(id).optional().describe('names of the valve states in which it is open; default always'),
  opensBar: amount
    .optional()
    .describe(
      'it is a relief: opens by itself at that pressure, bar, whatever the valve, and is no way for the water otherwise; default: it is a plain passage',
    ),
});

const thingShape = {
  name: name.describe('name on the drawing and in the list'),
  tag: z.string().max(12).optional().describe('short mark on the drawing, capitals and digits'),
  kind: z.enum(THING_KINDS).describe('what it is: decides which checks speak about it'),
  shape: shape.describe('its envelope, centred on its own origin, before the turn'),
  massKg: mass.default(0).describe('kilograms, as it stands aboard; default 0'),
  ports: record(port).default({}).describe('where hoses, tubes and cables meet it, by id'),
  passages: record(passage)
    .optional()
    .describe('which ports are joined inside, by id; default: all ports of one medium'),
  services: record(service).default({}).describe('what must be done to it and the room that it needs, by id'),
  heatW: amount
    .optional()
    .describe('heat that it gives off while it runs, watts; that of all things in a compartment warms its air'),
  greatestC: z
    .number()
    .finite()
    .optional()
    .describe(
      'hottest surroundings that it may run in, degrees Celsius; compared with the air of its compartment while it runs',
    ),
  productLH: amount.optional().describe('of a set, at its pump module: drinking water that it makes, litres an hour'),
  workingBar: amount
    .optional()
    .describe('of a set, at its pump module: pressure at which it makes that, bar; default 55 for sea water'),
  recoversEnergy: z
    .boolean()
    .optional()
    .describe('of a pump module: takes back the pressure of the brine; default false'),
  fuel: z
    .enum(['diesel', 'petrol'])
    .optional()
    .describe(
      'of an engine or fuel tank; petrol: its compartment is open to petrol vapour, and 33 CFR 183 binds. Default diesel',
    ),
  bareMetal: z
    .boolean()
    .optional()
    .describe('its outside is bare metal: of fuel tanks, filters and pipes near battery posts; default: not judged'),
  movesM: length
    .optional()
    .describe(
      'how far it gives when pulled with twice its weight, metres, 0 where it is bolted; of a battery at most 10 mm (ISO) or 25.4 mm (US)',
    ),
  heldDown: z
    .boolean()
    .optional()
    .describe(
      'strapped, boxed or bolted against a knockdown; false: it is loose; default: not known, and not judged for what is aboard',
    ),
  electric: electric.optional().describe('electrical data'),
  zones: record(zone).optional().describe('zones about it, by id'),
  micron: amount.optional().describe('of a filter: rating in micrometres'),
  valve: z
    .looseObject({
      states: z
        .array(id)
        .min(1)
        .describe(
          'names of its positions; one called shut, closed, close or off lets nothing through, any other lets through what the passages say, or everything where there are none',
        ),
      normally: id.optional().describe('state in which it usually stands'),
      handle: z
        .looseObject({
          at: localPoint,
          leverM: length.default(0).describe('length of the lever, metres; default 0: a wheel or knob'),
          swingDeg: angle.default(90).describe('how far it turns from open to shut, degrees; default 90'),
          direction: direction
            .optional()
            .describe(
              'local: the way the lever points when the valve is open; it is shut by a turn of swingDeg, right-handed about the axis. Default unknown: one free quarter anywhere round the axis is enough',
            ),
          axis: direction.optional().describe('local: axis about which the lever turns; default local z'),
        })
        .optional()
        .describe('what the hand turns'),
      kind: z
        .enum(['ball', 'gate', 'threeWay', 'check', 'needle', 'relief', 'plug', 'other'])
        .default('ball')
        .describe(
          'default ball. gate: on a through-hull it is to be replaced first. check: lets water through one way only, from its port of role in to that of role out, whatever its state. needle: regulates pressure and is never quite shut, as is any valve of a control station. relief: opens by itself under pressure and cannot be shut. Any other can be put by hand into each of its states',
        ),
      labelled: z
        .boolean()
        .optional()
        .describe(
          'a label at the valve and a step of the checklist say that it is opened before the set runs: accepted for the seacock of a brine outlet, not for a valve in mid-line; default false',
        ),
      reject: id
        .optional()
        .describe(
          'of a diverter of made water: state in which water that is not good yet is kept from the tank; default: the one that is called reject, tap, test, sample, dump, waste, drain or overboard, else the one that is not called tank, accept or good',
        ),
    })
    .optional()
    .describe('of a thing that can be shut or switched over'),
  opensToSea: z
    .looseObject({
      at: localPoint.describe('local: where it opens in the hull'),
      boreM: size.describe('bore, metres'),
      use: z.enum(['intake', 'outlet', 'spare']).default('intake').describe('default intake'),
      material: z
        .enum(['bronze', 'dzrBrass', 'brass', 'plastic', 'stainless', 'other'])
        .optional()
        .describe('what the fitting and its valve are made of; plain brass is to be replaced first'),
      fittedYear: z
        .int()
        .min(1900)
        .max(2200)
        .optional()
        .describe('year in which it was fitted; with plannedYear of the boat its age is judged'),
      backed: z
        .boolean()
        .optional()
        .describe('a pad inside spreads its load over the shell; false is a fault, absent: not judged'),
      checked: z
        .array(z.enum(HOLE_CHECKS))
        .optional()
        .describe(
          'of a part, whose hole is still to be made: what was looked at there, inside and out; all of it wanted below the upright waterline',
        ),
      discharges: z
        .array(z.enum(DISCHARGES))
        .optional()
        .describe('what comes out of it; default: what its lines and the names in sharedBy tell'),
    })
    .optional()
    .describe('of a through-hull: the hole in the hull'),
  sharedBy: z.array(name).optional().describe('who else uses this intake or outlet'),
  liquidL: amount.optional().describe('what it holds: a tank, a bowl, litres'),
  catchesL: amount
    .optional()
    .describe(
      'of an open tray, drip pan or basin: litres of drips and spill from above that stay in it; default: a sink catches any, nothing else does',
    ),
  crestAt: localPoint
    .optional()
    .describe(
      'local: highest point of the waterway under the vent of a vented loop; decides how high the loop stands; default: the highest point of its envelope',
    ),
  relief: z
    .looseObject({
      opensBar: amount.optional().describe('pressure at which it opens or switches off, bar; default not known'),
    })
    .optional()
    .describe(
      'a relief valve or pressure switch is built in here: of the pressure pump it guards all that follows, of anything on the way it guards what comes behind. A relief valve of its own is a thing whose valve is of kind relief; one inside a part may be a passage with opensBar. Default: none',
    ),
  chlorineFree: z
    .boolean()
    .optional()
    .describe(
      'of a tank, a fresh-water pump or a shore connection: its water never holds chlorine, such as a tank that is filled with made water only; it may then flush the membrane without a carbon filter. Default false',
    ),
  tank: z
    .looseObject({
      ventBoreM: length
        .optional()
        .describe(
          'bore of its vent, metres, 0 for none: must be that of the tube with made water at least; default that of its port that serves as vent',
        ),
      overflowTo: z
        .enum(['overboard', 'deck', 'cockpit', 'sink', 'bilge', 'locker', 'cabin'])
        .optional()
        .describe(
          'where the water goes when it is too full: a locker or a cabin is a fault; default: where the line from its overflow, else from its vent, ends',
        ),
      overflowAt: localPoint
        .optional()
        .describe(
          'local: where it runs over, as high as the entry of made water at most, as drawn upright; default its port that serves as overflow, else as vent',
        ),
      entryAt: localPoint
        .optional()
        .describe('local: where made water enters; default the port at which the line with it ends'),
    })
    .optional()
    .describe(
      'of a water tank: how it is vented and where it runs over; what is neither here nor a port is not judged',
    ),
  pressureLoss: z
    .looseObject({
      atLMin: amount.positive().describe('flow at which the losses were read, litres a minute'),
      cleanBar: amount.describe('loss when clean, bar'),
      dirtyBar: amount
        .optional()
        .describe('loss when it is due to be cleaned or changed, bar; default that when clean'),
      law: z
        .enum(['linear', 'quadratic'])
        .optional()
        .describe('how it grows with the flow; default linear for a filter cartridge, quadratic for anything else'),
    })
    .optional()
    .describe(
      'pressure that the water loses in it; default: a cartridge 0.002 bar for each litre a minute when clean and twice that when dirty, a strainer 0.005 bar at 8 L/min and twice that, a ball valve 0.07 of the dynamic pressure in its bore, a tee or three-way valve 0.47 straight through and 1.4 round its corner, anything else nothing. A hose loses by Darcy and Swamee-Jain for 1025 kg/m3, 1.08e-3 Pa s and a roughness of 0.0015 mm, its bends 0.33 for each 90 degrees, the hole in the hull 0.5',
    ),
  material: z
    .enum([
      'bronze',
      'dzrBrass',
      'brass',
      'copper',
      'galvanised',
      'carbonSteel',
      'stainless316',
      'stainless',
      'plastic',
      'other',
    ])
    .optional()
    .describe(
      'what the water touches in it: plain brass, copper, galvanised and carbon steel do not belong on feed or made water; default not known, and not judged',
    ),
  npshM: length
    .optional()
    .describe('of a pump: net positive suction head that it needs, metres; default: only what it can lift counts'),
  flushL: amount
    .optional()
    .describe('of a pump module: fresh water that one flush takes, litres; default 15 to 40, the greater counts'),
  boreM: size.optional().describe('bore through it, metres'),
  bleeds: z.boolean().optional().describe('trapped air can be let out here'),
  flowLMin: amount
    .optional()
    .describe(
      'flow while it runs, litres a minute; of a bilge pump what its label says, of which half is counted for lift, hose and voltage',
    ),
  automatic: z
    .boolean()
    .optional()
    .describe(
      'of a pump: starts by itself, a bilge pump by its float switch, a fresh-water pump by its pressure switch; default: so are fresh-water pumps, and bilge pumps with electric data',
    ),
  liftM: length
    .optional()
    .describe(
      'of a pump: how high it can draw water, metres; height and losses of its suction together are held against it. Default: they are held against 0.2 bar',
    ),
  grade: grade.optional(),
  priceEach: amount.optional().describe('price of one, in whatever money'),
  source: text.optional().describe('where the values come from: data sheet, measured, typical'),
  group: name
    .optional()
    .describe('things with the same word here stay together: they are picked and moved as one; decides no check'),
  notes: text.optional().describe('free text'),
};

export const fixture = z.looseObject({
  ...thingShape,
  pose: pose.describe('where it is and how it is turned'),
  sweeps: record(keepOut)
    .default({})
    .describe('space that it moves through, by id: nothing may be there, and runs keep 40 mm from it'),
  soft: z.boolean().default(false).describe('the envelope is no solid: runs may pass it; default false'),
});

export const part = z.looseObject({
  ...thingShape,
  sweeps: record(keepOut)
    .default({})
    .describe('space that it moves through, by id: nothing may be there, and runs keep 40 mm from it'),
  mounting: z
    .looseObject({
      face: z
        .enum(['+x', '-x', '+y', '-y', '+z', '-z'])
        .optional()
        .describe(
          'local: face that is screwed on; it must lie on a mounting surface. Default: the face that looks at the surface',
        ),
      screwM: length
        .optional()
        .describe(
          'length of the screws, metres: less footM and the thickness of the surface, it is how far they come out behind',
        ),
      footM: length
        .optional()
        .describe('thickness of the foot or flange of the part that the screws pass first, metres; default 0'),
      screws: z.int().min(0).optional().describe('number of screws'),
      resilient: z
        .boolean()
        .optional()
        .describe('stands on rubber feet: what shakes is then heard less through the panel'),
      upright: z
        .boolean()
        .optional()
        .describe('must stand upright: its local z up, as it is fitted in an upright boat'),
      levelDeg: angle
        .optional()
        .describe(
          'how far off upright it may be fitted, degrees (crankcase oil); default 5 of what must stand upright',
        ),
      tiltDeg: angle
        .optional()
        .describe(
          'greatest angle of its local z off the vertical at which it may run, degrees: its own lean and the heel of the run states together',
        ),
    })
    .optional()
    .describe('how it is fixed'),
});

export const end = z.looseObject({
  diameterM: size.optional().describe('largest diameter of the end fitting, metres: a crimped end must pass the holes'),
  rigidM: length
    .optional()
    .describe('length from the port, of an elbow from its corner, that does not bend, metres; nothing bends there'),
  dropM: length
    .optional()
    .describe(
      'of an elbow: from the port to the axis of the hose, along the port, metres; default rigidM. The length of the hose counts from there',
    ),
  angleDeg: angle
    .default(0)
    .describe(
      'degrees: 0 straight (default), 45 or 90 for an elbow end; of eight ways to turn it the one with the better run is taken',
    ),
  swivel: z.boolean().default(false).describe('its nut turns freely; default false'),
  clamps: z
    .int()
    .min(0)
    .max(4)
    .optional()
    .describe(
      'of a hose on a barb: clamps that hold it, a count; judged below the heeled waterline, absent: not judged. The list buys two',
    ),
  clampsStainless: z
    .boolean()
    .optional()
    .describe('clamps are stainless all through, screw and housing too; false is a fault below the heeled waterline'),
  shielded: z
    .boolean()
    .optional()
    .describe('a cover stops a jet from this joint: then it may be near a pillow; default false'),
  crimped: z
    .boolean()
    .default(false)
    .describe(
      'fitted on before the hose is laid; default false: put on after. Of two crimped ends the smaller leads through the holes, and needs its rigid length free on both sides of them',
    ),
  name: name.optional().describe('words for it'),
});

export const lineKind = z.looseObject({
  name: name.describe('name in the list'),
  what: z.enum(['hose', 'tube', 'cable']).describe('group in the list'),
  outsideM: size.describe('outside diameter, metres; of a pair of cables, of the bundle'),
  boreM: size.optional().describe('bore, metres'),
  bendRadiusM: length.describe('least bend radius, metres, measured as radiusTo says'),
  radiusTo: z
    .enum(['inside', 'centreline'])
    .default('inside')
    .describe(
      'how the standard of the hose measures its radius: to the inside of the bend (default; the centre line then bends to bendRadiusM + outsideM / 2) or to the centre line',
    ),
  crimpedEnds: z.boolean().default(false).describe('made up with ends that are crimped on; default false'),
  end: end.optional().describe('usual end fitting, at both ends'),
  straightM: length
    .optional()
    .describe(
      'of tube that is pushed into its fittings: length that must stay straight behind them, metres; default 0',
    ),
  pressureBar: amount
    .optional()
    .describe(
      'working pressure for which it is made, bar: must reach what the set works at. Default: made for no pressure side',
    ),
  areaMm2: amount
    .optional()
    .describe(
      'of a cable: copper area of one conductor, mm2. What it may carry is that of the largest gauge of Table 5 of 33 CFR 183.425 whose area is no larger (2 % allowed): 10 mm2 counts as gauge 8, 16 and 20 as gauge 6',
    ),
  conductors: z.int().min(1).max(8).optional().describe('number of conductors'),
  supportM: size.optional().describe('greatest spacing of clips, metres; a line may say a closer one, see clipM'),
  sheathed: z
    .boolean()
    .optional()
    .describe('of a cable: its conductors lie in a common sheath the whole way; default false'),
  soldByM: length.optional().describe('sold in multiples of this, metres'),
  soldLengthsM: z.array(size).optional().describe('sold in these lengths, metres'),
  pricePerM: amount.optional().describe('price of one metre, in whatever money'),
  temperatureC: z
    .number()
    .finite()
    .optional()
    .describe(
      'hottest that it stands, degrees Celsius; of a cable the rating of its insulation (60, 75, 80, 90, 105, 125 or 200), which decides what it may carry',
    ),
  suction: z
    .boolean()
    .optional()
    .describe(
      'may be used on suction: it does not collapse; default: so is what bears 20 bar, of anything else it is not known',
    ),
  potable: z
    .boolean()
    .optional()
    .describe('may carry drinking water; default not known: of a line with made water it must be said'),
  material: z
    .enum(['rubber', 'plastic', 'copper', 'brass', 'galvanised', 'carbonSteel', 'stainless316', 'stainless', 'other'])
    .optional()
    .describe(
      'what the water touches: brass, copper, galvanised and carbon steel do not belong on feed or made water; default not known, and not judged',
    ),
  source: text.optional().describe('where the values come from'),
});

export const lineEnd = z.looseObject({
  thing: id.describe('id of a fixture or part'),
  port: id.describe('id of one of its ports'),
});

export const line = z.looseObject({
  name: name.describe('name in the list'),
  kind: id.describe("a record of lineKinds, or one of the catalogue's kinds"),
  medium: medium.describe('what flows in it'),
  from: lineEnd.describe('port at which it begins; the flow goes from here'),
  to: lineEnd.describe('port at which it ends'),
  ends: z
    .looseObject({
      from: end.optional().describe('end fitting at from'),
      to: end.optional().describe('end fitting at to'),
    })
    .default({})
    .describe('end fittings, where they differ from those of the kind'),
  suction: z
    .boolean()
    .optional()
    .describe('the water in it is drawn, not pushed; default: sea water on the way to the first pump'),
  supplied: z
    .looseObject({
      lengthM: size.describe('over the ends of its fittings, metres'),
      spareM: length.default(0.05).describe('reserve that must be left, metres; default 0.05'),
      mayCut: z.boolean().default(false).describe('may be cut shorter to fit; default false'),
    })
    .optional()
    .describe(
      'the hose comes in this length, over the ends of its fittings: its run must not be longer than that less the spare',
    ),
  currentA: amount
    .optional()
    .describe(
      'of a power cable: greatest steady current in it, amperes; default what the motors behind it draw together',
    ),
  sheathed: z
    .boolean()
    .optional()
    .describe(
      'of a power cable: led in a sheath, conduit or enclosure the whole way; default what its kind says. Decides how far a fuse may be from its source',
    ),
  bundle: name
    .optional()
    .describe(
      'of a power cable: cables with the same word are tied together in one bundle. Of three conductors that carry current (a pair has two) each may carry 0.7 of what it may alone, of 4 to 6 0.6, of 7 to 24 0.5; default: cables whose runs lie within 10 mm of one another over more than 0.6 m are one bundle',
    ),
  clipM: size
    .optional()
    .describe(
      'spacing at which it is clipped, metres; default supportM of its kind. Of a power cable at most 0.45; at a battery 0.3, where it is given here',
    ),
  drains: z
    .boolean()
    .optional()
    .describe('it empties by falling all the way; default: waste from a sink, a fridge or a gas locker'),
  riseToM: z
    .number()
    .finite()
    .min(-10)
    .max(30)
    .optional()
    .describe(
      'it must rise to this height somewhere, metres above the floating waterline: a loop against siphoning; default: it need not',
    ),
  existing: z.boolean().default(false).describe('aboard already; default false'),
  tag: z.string().max(12).optional().describe('short mark on the drawing'),
  notes: text.optional().describe('free text'),
});
