import { z } from 'zod';
import { electric } from './electric';
import { keepOut, pose, shape, zone } from './envelope';
import { mounting } from './mounting';
import { passage, port } from './ports';
import { amount, grade, length, localPoint, mass, name, record, size, text } from './quantities';
import { seaOpening } from './sea-opening';
import { service } from './services';
import { valve } from './valve';
import { pressureLoss, relief, waterTank } from './water';

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

const thingShape = {
  name: name.describe('name on the drawing and in the list'),
  tag: z.string().max(12).optional().describe('short mark on the drawing, capitals and digits'),
  kind: z
    .enum(THING_KINDS)
    .describe(
      'what it is: decides which checks speak about it. A seacock has a valve, open and shut, whether or not valve is entered; a skinFitting has none unless it is. A check or relief valve of its own, a shore inlet and a loose end are of kind other; what lets water through with whatever comes in, such as a drain that several share, is a tee',
    ),
  shape: shape.describe('its envelope, centred on its own origin, before the turn'),
  massKg: mass.default(0).describe('kilograms, as it stands aboard; default 0'),
  ports: record(port).default({}).describe('where hoses, tubes and cables meet it, by id'),
  passages: record(passage)
    .optional()
    .describe(
      'which ports are joined inside, by id; default: all ports of one medium, of a valve, tee, filter or other fitting all ports with water',
    ),
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
  valve: valve.optional().describe('of a thing that can be shut or switched over'),
  opensToSea: seaOpening
    .optional()
    .describe(
      'of a through-hull: the hole in the hull; of a part it is a new hole, and checked says what was looked at',
    ),
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
  relief: relief
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
  tank: waterTank
    .optional()
    .describe(
      'of a water tank: how it is vented and where it runs over; what is neither here nor a port is not judged',
    ),
  pressureLoss: pressureLoss
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
      'of a pump: how high it can draw water, metres. Held against it is what its suction loses with filters dirty, and the height of its inlet above the water in the worst run-state: an inlet below the water gains by as much. Default: held against 0.2 bar',
    ),
  grade: grade.optional(),
  priceEach: amount.optional().describe('price of one, in whatever money'),
  source: text.optional().describe('where the values come from: data sheet, measured, typical'),
  group: name
    .optional()
    .describe('things with the same word here stay together: they are picked and moved as one; decides no check'),
  notes: text.optional().describe('free text'),
};

const sweeps = record(keepOut)
  .default({})
  .describe('space that it moves through, by id: nothing may be there, and runs keep 40 mm from it');

/** What is aboard already. */
export const fixture = z.looseObject({
  ...thingShape,
  pose: pose.describe('where it is and how it is turned'),
  sweeps,
  soft: z.boolean().default(false).describe('the envelope is no solid: runs may pass it; default false'),
});

/** What is to be placed: its pose belongs to an arrangement. */
export const part = z.looseObject({
  ...thingShape,
  sweeps,
  mounting: mounting.optional().describe('how it is fixed'),
});
