import type { THING_KINDS } from '../../boat/schema/things';

/** A term of the trade: what it is, why it matters here, and a value to begin with where there is one. */
export interface Term {
  readonly name: string;
  readonly what: string;
  readonly why: string;
  /** Typical values of small craft, from memory unless the product cites a source for them elsewhere; `` where none would help. */
  readonly typical: string;
}

const term = (name: string, what: string, why: string, typical = ''): Term => ({ name, what, why, typical });

/** Parts and fixtures, by their kind. */
export const KIND_TERMS: Readonly<Record<(typeof THING_KINDS)[number], Term>> = {
  pumpModule: term(
    'Pump module',
    'Motor and high-pressure pump on one base, often with the boost impeller on the same shaft.',
    'It is the heaviest part, vibrates, makes heat, and wants its oil, impeller and fittings in reach.',
    '520 x 300 x 280 mm and 25 kg for a 12 V plunger pump',
  ),
  feedPump: term(
    'Feed pump',
    'Draws sea water and pushes it through the filters to the pressure pump.',
    'A pump pushes far better than it sucks: low and near the seacock it fills by itself.',
    '2.5 kg, 13 to 19 mm hose',
  ),
  membrane: term(
    'Membrane vessel',
    'A tube that holds the element through which fresh water passes under pressure.',
    'The element comes out lengthwise: that room, or room to lift the whole vessel out, decides where it can go.',
    '80 mm across, 700 mm or 1190 mm long; 640 or 1150 mm to withdraw',
  ),
  controlStation: term(
    'Control station',
    'Pressure valve, gauges and flow meter, where the set is run from.',
    'Its valve is turned while the gauge is read, and its back holds pressure fittings.',
    '300 x 200 mm, 130 mm behind the panel',
  ),
  strainer: term(
    'Strainer',
    'A basket that holds back weed before any pump.',
    'It is emptied often, so its lid and the seacock that shuts it off must be in reach.',
    '150 mm over the lid',
  ),
  filter: term(
    'Filter housing',
    'A bowl with a cartridge that takes out what the strainer lets pass.',
    'Its bowl drops to change the cartridge, and spills about a litre.',
    '10 in housing; 20 then 5 micrometres; 60 mm down and tilt, or 300 mm straight',
  ),
  carbonFilter: term(
    'Carbon filter',
    'Takes chlorine out of tank water before it flushes the set.',
    'Chlorine destroys the membrane within hours.',
    'changed every six months',
  ),
  serviceValve: term(
    'Service valve',
    'Chooses between sea water and the service hose for flushing and preserving.',
    'Where it stands decides which parts a flush can reach.',
    'three-way, 3/4 in',
  ),
  flushValve: term(
    'Flush valve',
    'Lets tank water into the set after a run.',
    'A set that stands in salt water grows life and corrodes.',
    '15 to 40 L a flush',
  ),
  tee: term('Tee', 'Joins a branch to a hose.', 'A tee on the intake of another user may starve either of them.'),
  ventedLoop: term(
    'Vented loop',
    'A high bend with a valve that lets air in, so that water can not siphon.',
    'On a discharge it keeps the sea out; on a suction line it draws air and is a fault.',
    'top 200 mm or more over the heeled waterline',
  ),
  diverter: term('Diverter', 'Sends product to the tank or to the test tap.', 'Bad water must never reach the tank.'),
  tap: term(
    'Test tap',
    'Where the product is tasted and measured before it goes to the tank.',
    'A cup must fit below it.',
    '200 mm below',
  ),
  skinFitting: term(
    'Skin fitting',
    'An outlet through the hull without a valve.',
    'Above the heeled waterline it needs none; below it needs a seacock.',
  ),
  seacock: term(
    'Seacock',
    'A valve at a hole in the hull, shut by hand.',
    'When a hose lets go it is all that keeps the sea out: it must be reached in seconds, without a tool.',
    'a quarter turn, lever of 110 mm',
  ),
  bulkheadUnion: term(
    'Bulkhead union',
    'A fitting that leads a hose through a panel by a joint on each side.',
    'It lets crimped ends be made short, at the price of two more joints.',
  ),
  breaker: term(
    'Breaker',
    'Switches a circuit off, and trips on overload.',
    'It shuts the set off for service, so it stands near it.',
  ),
  fuse: term(
    'Fuse',
    'Melts before the conductor behind it burns.',
    'It belongs at the source, and must be able to break the current that the bank can give.',
    'within 178 mm of the source, or 1 m in a sheath',
  ),
  busbar: term('Busbar', 'A rail to which several conductors are bolted.', 'Open metal: nothing wet above it.'),
  sparesBox: term(
    'Spares box',
    'Cartridges, impeller, seals, oil, preservative.',
    'Without them the set stands still far from a shop.',
    '400 x 300 x 250 mm, 8 kg',
  ),
  battery: term(
    'Battery',
    'Holds what the motor drinks.',
    'Its size and the sun decide how much water can be made a day.',
  ),
  engine: term(
    'Engine',
    'The diesel that is aboard already.',
    'Hot, it shakes, and it must still be serviced when the set is in.',
  ),
  stuffingBox: term('Stuffing box', 'Seals the propeller shaft.', 'Two hands and two spanners must still reach it.'),
  waterLock: term('Water lock', 'Catches the cooling water of the exhaust.', 'Hot when the engine runs.'),
  exhaust: term(
    'Exhaust',
    'Hose or pipe for exhaust gas and cooling water.',
    'Hoses and cables keep clear of its heat.',
    '150 mm',
  ),
  fuelTank: term('Fuel tank', 'Diesel or petrol.', 'Petrol vapour ignites from a spark; no screw may reach it.'),
  waterTank: term(
    'Water tank',
    'Fresh water.',
    'One tank is filled first, vented, with an overflow that ends outside a locker.',
  ),
  holdingTank: term('Holding tank', 'Sewage.', 'Nothing of the set shares its hoses.'),
  waterHeater: term('Water heater', 'Warms tank water.', 'Hot, and its element is withdrawn.'),
  freshPump: term(
    'Fresh-water pump',
    'Feeds taps, and often the flush.',
    'A flush joint that lets go lets it empty the tank.',
    '10 to 15 L a minute',
  ),
  sink: term(
    'Sink',
    'Drains to the sea.',
    'Its drain may take the brine, and backs up when it is under water at heel.',
  ),
  deckWashPump: term('Deck-wash pump', 'Draws sea water for the deck.', 'It may share an intake with the set.'),
  head: term('Head', 'The toilet.', 'Its outlet must not lie just ahead of the intake.'),
  bilgePump: term(
    'Bilge pump',
    'Takes water out of the bilge.',
    'It gives about half of what its label says.',
    '1000 L an hour fitted, of 2000 on the label',
  ),
  steering: term('Steering', 'Quadrant, cables, rods.', 'Nothing may be where it swings.'),
  emergencyTiller: term('Emergency tiller', 'Steers when the wheel does not.', 'The way to its square stays clear.'),
  autopilotDrive: term('Autopilot drive', 'Moves the rudder.', 'It moves, and it draws current near its compass.'),
  compass: term(
    'Compass',
    'Steering compass or the sensor of the autopilot.',
    'A single conductor with 25 A at half a metre turns it by tens of degrees.',
    '1 m; a pair laid together much less',
  ),
  inverterCharger: term(
    'Inverter-charger',
    'Makes mains voltage, and charges the bank.',
    'It is hot and must stay dry.',
  ),
  dcPanel: term('DC panel', 'Breakers of the boat.', 'Its door swings, and its back must stay dry.'),
  gasLocker: term(
    'Gas locker',
    'Bottles, sealed from the boat, drained overboard.',
    'No line through it, no spark in it.',
  ),
  fridge: term('Fridge', 'Its compressor.', 'It wants air, and gives heat.'),
  logFitting: term('Log fitting', 'A hole in the hull for the speed log.', 'An unused one may be the intake.'),
  mastStep: term('Mast step', 'Carries the mast.', 'Structure: nothing is cut there.'),
  keelBolts: term('Keel bolts', 'Hold the keel.', 'A spanner must still get on each.'),
  chainplate: term('Chainplate', 'Holds a shroud.', 'Structure, and it must be looked at for leaks.'),
  joinery: term('Joinery', 'Furniture.', 'It is in the way, and may carry something light.'),
  other: term('Other', 'Something else.', 'It takes room.'),
};

/** Words of the drawing, the lists and the verdicts, by a short key. */
export const TERMS = {
  arrangement: term(
    'Arrangement',
    'One complete choice of places, clip points and new holes.',
    'A boat holds several, to be compared.',
  ),
  clipPoint: term('Clip point', 'A place that a run is made to pass.', 'There it is clipped to something.'),
  crossing: term('Crossing', 'Where a run passes a panel.', 'By a hole that is there, or one to be drilled.'),
  opening: term('Opening', 'Hatch, door, lid or board.', 'Parts come in through it and hands reach through it.'),
  mountingSurface: term(
    'Mounting surface',
    'A face that something can be screwed to.',
    'What is behind it decides how long the screws may be.',
    '18 mm of plywood for a pump of 25 kg',
  ),
  runState: term(
    'Run-state',
    'How the boat lies while water is made.',
    'Only in these must the intake stay under.',
    'at anchor; motoring at 5 degrees',
  ),
  operatingState: term(
    'Operating state',
    'Which valves stand how and which pumps run.',
    'A circuit may be right in one and wrong in another.',
  ),
  grade: term(
    'Accuracy',
    'How well a size is known: measured, taped, scaled, guessed.',
    'A verdict is no surer than its tape.',
    'two standard deviations of 5, 20, 40, 100 mm',
  ),
  closeCall: term('Close call', 'A margin smaller than the tape is good for.', 'Measure again before you rely on it.'),
  bendRadius: term(
    'Bend radius',
    'The tightest bend that a hose bears.',
    'A tighter one kinks or breaks it.',
    'to the inside of the bend; 130 mm for a 3/8 in pressure hose',
  ),
  ferrule: term(
    'Crimped end',
    'An end fitting pressed on in a shop.',
    'It must pass every hole, and its rigid length needs room to turn.',
    '22 to 25 mm across, 60 to 80 mm rigid',
  ),
  makingUp: term(
    'Making-up allowance',
    'Hose that is cut and trimmed away at the ends.',
    'A hose cut to the drawing is too short.',
    '50 mm an end',
  ),
  grommet: term('Grommet', 'A ring that lines a hole.', 'Without it the edge saws through hose or cable.'),
  highPoint: term(
    'High point',
    'A crest in a suction hose that air can not leave.',
    'Air gathers there and the pump loses its water.',
  ),
  suction: term(
    'Suction side',
    'Where water is drawn, not pushed.',
    'A pump sucks badly: short, wide, rising steadily.',
    'at most 0.2 bar lost',
  ),
  siphon: term(
    'Siphon',
    'Water that runs over a high point by itself once it has begun.',
    'A hose with an open end below the sea sinks boats at anchor.',
  ),
  reject: term(
    'Reject state',
    'Product goes to the tap and not to the tank.',
    'At each start the first water is bad.',
    '3 to 5 minutes',
  ),
  deadHead: term(
    'Dead end',
    'A pump that pushes against a shut valve.',
    'A pressure pump bursts something before it stops.',
  ),
  recovery: term(
    'Recovery',
    'The share of the sea water that becomes product.',
    'Above what an element bears it scales and fouls.',
    '8 to 12 %',
  ),
  product: term('Product', 'The fresh water that is made.', 'People drink it.'),
  brine: term('Brine', 'What is left of the sea water.', 'It goes overboard, about nine tenths of what came in.'),
  flush: term(
    'Flush',
    'Fresh water through the whole set after a run.',
    'Else it fouls within days.',
    'every 5 to 7 days',
  ),
  preserve: term(
    'Preserving',
    'A solution that keeps the membrane while it is laid up.',
    'A membrane that dries out or freezes is lost.',
  ),
  ampacity: term(
    'Ampacity',
    'The current that a conductor bears without growing too hot.',
    'Its fuse must be smaller than the harm.',
    '60 A for 5.3 mm² at 105 °C',
  ),
  voltageDrop: term(
    'Voltage drop',
    'Volts lost in the cable, out and back.',
    'A motor with too few volts runs hot and makes less water.',
    '3 or 10 % of the bank',
  ),
  interrupting: term(
    'Interrupting rating',
    'The greatest current that a fuse breaks without bursting.',
    'A lithium bank drives thousands of amperes through a short.',
    'up to 20 kA',
  ),
  greenWater: term(
    'Green water',
    'A wave that comes down a hatch.',
    'Electrics within 45 degrees below an opening get wet.',
  ),
  staticLevel: term(
    'Final level',
    'How high the water rises inside when a joint lets go and no pump runs.',
    'What stands below it is lost.',
  ),
  heel: term('Heel', 'How far the boat leans.', 'What is above water upright may be under it.'),
  waterline: term(
    'Floating waterline',
    'Where the water stands in cruising trim.',
    'Heights count from there; it is measured, not designed.',
  ),
  freeboard: term(
    'Freeboard',
    'Height of the deck edge over the water.',
    'Read it off to know where the water is inside.',
  ),
  station: term('Station', 'A cut across the hull.', 'Three girths make a hull good enough to plan in.'),
  posture: term(
    'Posture',
    'How a person must hold himself to reach something.',
    'What takes a contortion is not done at sea.',
  ),
  serviceSpace: term(
    'Service space',
    'Room that a task needs free.',
    'A part that fits and can not be serviced is in the wrong place.',
  ),
  lowerBound: term(
    'Bound',
    'A length that no run between the two ports can beat, worked out apart from the search.',
    'A run that comes close to it can hardly be laid better.',
  ),
  runCost: term(
    'Cost',
    'Length of the run, and what is added for bends, holes to drill and unkept wishes, as metres of hose.',
    'The way that costs least is the one that is shown.',
  ),
  clearance: term(
    'Clearance',
    'The least distance from what is laid to whatever it passes.',
    'Hoses that touch wear through.',
  ),
  envelope: term(
    'Envelope',
    'The box or tube that encloses a thing with all that sticks out of it.',
    'It is what must pass the opening and fit the place.',
  ),
  displacement: term(
    'Displacement',
    'What the boat weighs, as the water that she pushes aside.',
    'It says how deep she lies, and how much a load sinks her.',
  ),
  draught: term('Draught', 'How deep the keel reaches.', 'It ties the drawing to the water.'),
  halfBreadth: term(
    'Half-breadth',
    'From the centre line out to the skin.',
    'One side is measured; the other is its mirror.',
  ),
  knuckle: term(
    'Knuckle',
    'A hard corner in a section, like a chine.',
    'The curve breaks there, and is not faired across it.',
  ),
  sheer: term('Sheer', 'The line of the deck edge.', 'Heights inside are read off down from it.'),
  netVolume: term(
    'Net volume',
    'Room in a compartment less the things in it.',
    'It is what is left for stowage, and for water to fill.',
  ),
  reading: term(
    'Reading',
    'One distance as the tape gave it, between two marked points.',
    'A few more than needed show which of them is wrong.',
  ),
  sweep: term(
    'Sweep',
    'The room that something moves through: a lever, a door, a quadrant.',
    'Nothing may stand or lie in it.',
  ),
  panelRule: term(
    'What may pass',
    'Whether holes may be drilled in a panel.',
    'Structure, tanks and watertight or fire boundaries are not drilled.',
  ),
} as const satisfies Record<string, Term>;
