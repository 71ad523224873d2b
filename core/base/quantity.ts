/**
 * Quantities that people type, each in the unit that the boat file keeps it in (SI, but degrees, bars, litres and square
 * millimetres where the trade counts so), and the units in which they may be typed.
 */
export type Quantity = keyof typeof UNITS;

interface Unit {
  /** As it is written. The first is how the tool writes it. */
  readonly names: readonly string[];
  /** Kept value of one of this unit. */
  readonly each: number;
  /** Kept value of none of this unit, where that is not zero: scales of temperature. */
  readonly zero?: number;
}

const INCH = 0.0254;
const POUND = 0.45359237;
const US_GALLON_L = 3.785411784;
const IMPERIAL_GALLON_L = 4.54609;
const PSI_BAR = 0.0689475729316836;
const FOOT = 12 * INCH;

/** Definitions of the international yard and pound, US and imperial gallon: exact; psi from them and standard gravity. */
export const UNITS = {
  /** metres */
  length: [
    { names: ['m', 'metre', 'metres', 'meter', 'meters'], each: 1 },
    { names: ['cm'], each: 0.01 },
    { names: ['mm'], each: 0.001 },
    { names: ['ft', "'", 'foot', 'feet'], each: FOOT },
    { names: ['in', '"', 'inch', 'inches'], each: INCH },
  ],
  /** kilograms */
  mass: [
    { names: ['kg'], each: 1 },
    { names: ['g'], each: 0.001 },
    { names: ['t'], each: 1000 },
    { names: ['lb', 'lbs'], each: POUND },
    { names: ['oz'], each: POUND / 16 },
  ],
  /** litres */
  volume: [
    { names: ['L', 'litre', 'litres', 'liter', 'liters'], each: 1 },
    { names: ['mL'], each: 0.001 },
    { names: ['m3', 'm³'], each: 1000 },
    { names: ['gal', 'gallon', 'gallons'], each: US_GALLON_L },
    { names: ['impgal'], each: IMPERIAL_GALLON_L },
  ],
  /** litres a minute */
  flow: [
    { names: ['L/min', 'lpm'], each: 1 },
    { names: ['L/h', 'L/hr', 'lph'], each: 1 / 60 },
    { names: ['L/d', 'L/day', 'lpd'], each: 1 / 1440 },
    { names: ['L/s'], each: 60 },
    { names: ['m3/h', 'm³/h'], each: 1000 / 60 },
    { names: ['gpm', 'gal/min'], each: US_GALLON_L },
    { names: ['gph', 'gal/h', 'gal/hr'], each: US_GALLON_L / 60 },
    { names: ['gpd', 'gal/d', 'gal/day'], each: US_GALLON_L / 1440 },
  ],
  /** bar, gauge or difference as the field says */
  pressure: [
    { names: ['bar'], each: 1 },
    { names: ['mbar'], each: 0.001 },
    { names: ['psi'], each: PSI_BAR },
    { names: ['kPa'], each: 0.01 },
    { names: ['MPa'], each: 10 },
  ],
  /** degrees */
  angle: [
    { names: ['°', 'deg', 'degree', 'degrees'], each: 1 },
    { names: ["'"], each: 1 / 60 },
    { names: ['rad'], each: 180 / Math.PI },
  ],
  /** amperes */
  current: [
    { names: ['A', 'amp', 'amps'], each: 1 },
    { names: ['mA'], each: 0.001 },
    { names: ['kA'], each: 1000 },
  ],
  /** volts */
  voltage: [
    { names: ['V', 'volt', 'volts'], each: 1 },
    { names: ['mV'], each: 0.001 },
  ],
  /** watts; hp is the mechanical horsepower of 550 foot-pounds a second */
  power: [
    { names: ['W', 'watt', 'watts'], each: 1 },
    { names: ['kW'], each: 1000 },
    { names: ['hp'], each: 745.6998715822702 },
  ],
  /** metres a second */
  speed: [
    { names: ['m/s'], each: 1 },
    { names: ['kn', 'kt', 'kts', 'knot', 'knots'], each: 1852 / 3600 },
    { names: ['km/h'], each: 1 / 3.6 },
  ],
  /** seconds; a year is 365.25 days */
  time: [
    { names: ['s', 'sec'], each: 1 },
    { names: ['min', 'minutes'], each: 60 },
    { names: ['h', 'hr', 'hrs', 'hour', 'hours'], each: 3600 },
    { names: ['d', 'day', 'days'], each: 86_400 },
    { names: ['wk', 'week', 'weeks'], each: 604_800 },
    { names: ['yr', 'year', 'years'], each: 31_557_600 },
  ],
  /** square millimetres, as conductors are sold; a conductor may be typed by its gauge, see `gaugeMm2` */
  area: [
    { names: ['mm2', 'mm²'], each: 1 },
    { names: ['cm2', 'cm²'], each: 100 },
    { names: ['m2', 'm²'], each: 1e6 },
    { names: ['in2', 'in²', 'sqin'], each: 645.16 },
    { names: ['ft2', 'ft²', 'sqft'], each: FOOT * FOOT * 1e6 },
  ],
  /** degrees Celsius */
  temperature: [
    { names: ['°C', 'C'], each: 1 },
    { names: ['°F', 'F'], each: 5 / 9, zero: -160 / 9 },
    { names: ['K'], each: 1, zero: -273.15 },
  ],
  /** ampere-hours */
  charge: [
    { names: ['Ah'], each: 1 },
    { names: ['mAh'], each: 0.001 },
  ],
  /** watt-hours */
  energy: [
    { names: ['Wh'], each: 1 },
    { names: ['kWh'], each: 1000 },
  ],
  /** ohm */
  resistance: [
    { names: ['ohm', 'Ω', 'ohms'], each: 1 },
    { names: ['mohm', 'mΩ'], each: 0.001 },
    { names: ['kohm', 'kΩ'], each: 1000 },
  ],
  /** kilograms a cubic metre */
  density: [
    { names: ['kg/m3', 'kg/m³'], each: 1 },
    { names: ['kg/L'], each: 1000 },
    { names: ['lb/ft3', 'lb/ft³'], each: POUND / FOOT ** 3 },
  ],
  /** of one; people say per cent */
  share: [
    { names: ['%', 'percent'], each: 0.01 },
    { names: ['of one'], each: 1 },
  ],
} as const satisfies Record<string, readonly Unit[]>;

/** Values are kept to one micrometre (a millionth of whatever unit), so that memory equals file. */
const STEPS_PER_UNIT = 1e6;
/** Beyond this a millionth is below the spacing of doubles. */
const GREATEST = 1e9;

/** The value rounded to a millionth of its unit; -0 becomes 0. What is not finite or too large for that is given back as it is. */
export function quantised(value: number): number {
  if (!(Math.abs(value) < GREATEST)) return value;
  return Math.round(value * STEPS_PER_UNIT) / STEPS_PER_UNIT + 0;
}

/** The unit by any of its names: as written first, then whatever the case ("MM", "Gph"); undefined where there is none. */
export function unitOf(
  quantity: Quantity,
  name: string,
): { readonly name: string; readonly each: number; readonly zero: number } | undefined {
  const units: readonly Unit[] = UNITS[quantity];
  const lower = name.toLowerCase();
  const unit =
    units.find(({ names }) => names.includes(name)) ??
    units.find(({ names }) => names.some((candidate) => candidate.toLowerCase() === lower));
  return unit && { name: unit.names[0] ?? name, each: unit.each, zero: unit.zero ?? 0 };
}

/** Names by which the tool writes the units of a quantity. */
export const unitNames = (quantity: Quantity): readonly string[] =>
  (UNITS[quantity] as readonly Unit[]).map(({ names }) => names[0] ?? '');

/** Gauges that have a name of their own above the single digits: 2/0 is two sizes above 1. */
const AWG = /^(?:(\d{1,2})|([1-4])\/0|(0{1,4}))\s*(?:AWG|ga\.?|gauge)$/i;

/**
 * Area of a conductor by its American gauge, square millimetres: diameter 0.127 mm x 92^((36 - n) / 39) (ASTM B258, quoted, not
 * read); 1/0 counts as n = 0, 2/0 as -1. Null for what is written as no gauge.
 */
export function gaugeMm2(text: string): number | null {
  const found = AWG.exec(text.trim());
  if (!found) return null;
  const gauge = found[1] !== undefined ? Number(found[1]) : 1 - (found[2] ? Number(found[2]) : (found[3]?.length ?? 1));
  if (gauge > 40) return null;
  const diameterMm = 0.127 * 92 ** ((36 - gauge) / 39);
  return (Math.PI / 4) * diameterMm ** 2;
}
