import type { Grade, Medium, PanelData, Service } from '../../boat/schema/boat';

/** What must be done, as a noun that `of the filter` can follow. */
const TASKS: Readonly<Record<Service['task'], string>> = {
  bowlDrop: 'bowl drop',
  elementWithdrawal: 'element withdrawal',
  impellerCover: 'impeller cover',
  oilGlass: 'oil glass',
  oilFill: 'oil fill',
  oilDrain: 'oil drain',
  pumpHead: 'pump head',
  basket: 'strainer basket',
  lid: 'lid',
  caps: 'end caps',
  handle: 'handle',
  breaker: 'breaker',
  gauge: 'gauge',
  panelFront: 'panel front',
  panelBack: 'panel back',
  tapCup: 'cup under the tap',
  liftOut: 'lift-out',
  air: 'cooling air',
  belt: 'belt',
  carbon: 'carbon cartridge',
  clamps: 'hose clamps',
  nut: 'nut',
  seals: 'seals',
  anode: 'anode',
  stuffingBox: 'stuffing box',
  oilFilter: 'oil filter',
  fuelFilter: 'fuel filter',
  dipstick: 'dipstick',
  tankLid: 'tank lid',
  batteryPosts: 'battery posts',
  emergencyTiller: 'emergency tiller',
  keelBolts: 'keel bolts',
  limbers: 'limber holes',
  other: 'service',
};

/** A service task in words; a name that the owner gave stays as it is. */
export const taskText = (task: string): string => (Object.hasOwn(TASKS, task) ? TASKS[task as Service['task']] : task);

const MATERIALS: Readonly<Record<NonNullable<PanelData['material']>, string>> = {
  ply: 'plywood',
  solidWood: 'solid wood',
  grpSolid: 'solid GRP',
  grpCored: 'cored GRP',
  aluminium: 'aluminium',
  steel: 'steel',
  lining: 'lining',
  other: 'other material',
};

/** A panel's material in words. */
export const materialText = (material: string): string =>
  Object.hasOwn(MATERIALS, material) ? MATERIALS[material as NonNullable<PanelData['material']>] : material;

const GRADES: Readonly<Record<Grade, string>> = {
  measured: 'measured',
  taped: 'taped',
  scaled: 'scaled from a picture',
  guessed: 'guessed',
};

/** How a reading was taken, in words. */
export const gradeText = (grade: Grade): string => GRADES[grade];

/** What flows, in words. */
export const MEDIUM_WORDS: Readonly<Record<Medium, string>> = {
  seaWater: 'Sea water',
  brine: 'Brine',
  freshWater: 'Fresh water',
  product: 'Product',
  gauge: 'Gauge',
  dcPower: 'DC pair',
  signal: 'Signal',
  fuel: 'Fuel',
  waste: 'Waste',
  air: 'Air',
};

/** The same within a sentence; DC stays in capitals. */
export const mediumText = (medium: Medium): string =>
  medium === 'dcPower' ? MEDIUM_WORDS[medium] : MEDIUM_WORDS[medium].toLowerCase();
