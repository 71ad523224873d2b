import type { z } from 'zod';
import { BIBLIOGRAPHY } from '../../base/bibliography';
import type { LineKind } from '../schema/boat';
import { lineKind } from '../schema/lines';

type Draft = z.input<typeof lineKind>;

/**
 * Generic hoses, tubes and cables. They are typical sizes, to be overruled by a record of `lineKinds` once the real
 * article is known. Where a figure is published its source stands in `source`; the rest is common practice.
 */
const EN_853 = `${BIBLIOGRAPHY['en-853'].title}, ${BIBLIOGRAPHY['en-853'].known}: bend radius to the inside of the bend, working pressure; outside diameter and end typical`;
const HELIX = 'bend radius 8 x bore, plastic hose with a helix, smooth inside and out; the rest typical';
const PLASTIC_TUBE = 'bend radius 8 x outside diameter, plastics pipe practice; the rest typical';
const CABLE =
  'bend radius 5 x diameter of one conductor, common practice; outside diameters typical of tinned thin wall';

/** A hose on a barb with clamps: the end goes on after the hose is through the holes. */
const barb = (outsideM: number): Draft['end'] => ({
  name: 'barb',
  diameterM: round(outsideM + 0.008),
  rigidM: 0.04,
});
const round = (metres: number): number => Math.round(metres * 1e6) / 1e6;

const suction = (boreMm: number, outsideMm: number): Draft => ({
  name: `Suction hose ${boreMm} mm`,
  what: 'hose',
  boreM: boreMm / 1000,
  outsideM: outsideMm / 1000,
  bendRadiusM: round((8 * boreMm) / 1000),
  radiusTo: 'inside',
  end: barb(outsideMm / 1000),
  supportM: 0.45,
  soldByM: 0.5,
  suction: true,
  potable: false,
  temperatureC: 60,
  source: HELIX,
});

const softHose = (name: string, boreMm: number, outsideMm: number, more: Partial<Draft> = {}): Draft => ({
  ...suction(boreMm, outsideMm),
  name,
  suction: false,
  ...more,
});

/** [nominal, bore mm, outside mm, least inside radius mm, bar, ferrule and nut mm, rigid mm] */
const pressure = (
  braid: '1SN' | '2SN',
  inch: string,
  bore: number,
  outside: number,
  radius: number,
  bar: number,
  end: number,
  rigid: number,
): Draft => ({
  name: `Pressure hose ${inch} in ${braid}`,
  what: 'hose',
  boreM: bore / 1000,
  outsideM: outside / 1000,
  bendRadiusM: radius / 1000,
  radiusTo: 'inside',
  crimpedEnds: true,
  end: { name: 'ferrule and swivel nut', diameterM: end / 1000, rigidM: rigid / 1000, swivel: true, crimped: true },
  pressureBar: bar,
  potable: false,
  supportM: 0.4,
  temperatureC: 70,
  source: EN_853,
});

const tube = (name: string, outsideMm: number, boreMm: number, nutMm: number, more: Partial<Draft> = {}): Draft => ({
  name,
  what: 'tube',
  outsideM: outsideMm / 1000,
  boreM: boreMm / 1000,
  bendRadiusM: round((8 * outsideMm) / 1000),
  radiusTo: 'centreline',
  end: { name: 'push-fit, straight behind it', diameterM: nutMm / 1000, rigidM: round((2 * outsideMm) / 1000) },
  straightM: round((3 * outsideMm) / 1000),
  supportM: 0.4,
  soldByM: 1,
  potable: true,
  temperatureC: 60,
  source: PLASTIC_TUBE,
  ...more,
});

/** Two single conductors laid side by side; a lug fixed to each end. */
const pair = (areaMm2: number, conductorMm: number, lugMm: number, lugLengthMm: number): Draft => ({
  name: `Cable pair 2 x ${areaMm2} mm2`,
  what: 'cable',
  outsideM: round((2 * conductorMm) / 1000),
  bendRadiusM: round((5 * conductorMm) / 1000),
  radiusTo: 'inside',
  crimpedEnds: true,
  end: { name: 'ring terminal', diameterM: lugMm / 1000, rigidM: lugLengthMm / 1000, crimped: true },
  areaMm2,
  conductors: 2,
  supportM: 0.45,
  soldByM: 1,
  temperatureC: 105,
  source: CABLE,
});

const signal = (outsideMm: number, conductors: number): Draft => ({
  name: `Signal cable ${conductors} x 0.5 mm2`,
  what: 'cable',
  outsideM: outsideMm / 1000,
  bendRadiusM: round((5 * outsideMm) / 1000),
  radiusTo: 'inside',
  crimpedEnds: true,
  end: { name: 'plug', diameterM: 0.012, rigidM: 0.03, crimped: true },
  areaMm2: 0.5,
  conductors,
  temperatureC: 75,
  supportM: 0.45,
  soldByM: 1,
  source: 'bend radius 5 x outside diameter, common practice; sizes typical',
});

const DRAFTS: Readonly<Record<string, Draft>> = {
  'hose-suction-13': suction(13, 19),
  'hose-suction-16': suction(16, 22),
  'hose-suction-19': suction(19, 26),
  'hose-suction-25': suction(25, 33),
  'hose-suction-38': suction(38, 47),
  'hose-pressure-6': pressure('1SN', '1/4', 6.4, 14.1, 100, 225, 19, 55),
  'hose-pressure-8': pressure('1SN', '5/16', 8, 15.7, 115, 215, 22, 60),
  'hose-pressure-10': pressure('1SN', '3/8', 9.5, 18.1, 130, 180, 25, 70),
  'hose-pressure-13': pressure('1SN', '1/2', 12.7, 21.4, 180, 160, 30, 75),
  'hose-pressure-16': pressure('1SN', '5/8', 16, 24.5, 200, 130, 33, 80),
  'hose-pressure-19': pressure('1SN', '3/4', 19, 28.5, 240, 105, 38, 90),
  'hose-pressure-2sn-6': pressure('2SN', '1/4', 6.4, 15.7, 100, 400, 20, 55),
  'hose-pressure-2sn-10': pressure('2SN', '3/8', 9.5, 19.7, 130, 330, 26, 70),
  'hose-pressure-2sn-13': pressure('2SN', '1/2', 12.7, 23, 180, 275, 31, 75),
  'hose-brine-13': softHose('Brine hose 13 mm', 13, 19),
  'hose-brine-16': softHose('Brine hose 16 mm', 16, 22),
  'hose-brine-19': softHose('Brine hose 19 mm', 19, 26),
  'hose-flush-13': softHose('Flush hose 13 mm', 13, 19, { potable: true, pressureBar: 10 }),
  'hose-service-19': softHose('Service hose 19 mm', 19, 26),
  'hose-fresh-13': softHose('Fresh-water hose 13 mm', 13, 19, { potable: true, pressureBar: 10 }),
  'hose-drain-25': softHose('Drain hose 25 mm', 25, 33),
  'hose-drain-38': softHose('Drain hose 38 mm', 38, 47),
  'hose-fuel-8': softHose('Fuel hose 8 mm', 8, 15, { source: 'typical' }),
  'hose-exhaust-50': softHose('Wet exhaust hose 50 mm', 50, 64, {
    bendRadiusM: 0.2,
    source: 'typical; bend radius 4 x bore, common practice for hose with a wire helix',
  }),
  'tube-product-6': tube('Product tube 1/4 in', 6.35, 4.3, 16),
  'tube-product-10': tube('Product tube 3/8 in', 9.525, 6.35, 20),
  'tube-water-15': tube('Water tube 15 mm', 15, 11.5, 28),
  'tube-gauge-6': tube('Gauge tube 1/4 in', 6.35, 3, 16, {
    name: 'Gauge tube 1/4 in, pressure side',
    pressureBar: 100,
    potable: false,
  }),
  'cable-pair-1.5': pair(1.5, 3, 8, 22),
  'cable-pair-2.5': pair(2.5, 3.6, 8, 22),
  'cable-pair-4': pair(4, 4.4, 10, 25),
  'cable-pair-6': pair(6, 5, 12, 26),
  'cable-pair-10': pair(10, 6.5, 14, 30),
  'cable-pair-16': pair(16, 8.3, 16, 34),
  'cable-pair-25': pair(25, 10.2, 17, 38),
  'cable-pair-35': pair(35, 11.7, 20, 42),
  'cable-pair-50': pair(50, 13.8, 24, 47),
  'cable-pair-70': pair(70, 16, 27, 53),
  'cable-signal-2': signal(5, 2),
  'cable-signal': signal(6, 4),
  'cable-signal-8': signal(8, 8),
};

/** Catalogue of generic line kinds by id. */
export const LINE_KINDS: Readonly<Record<string, LineKind>> = Object.fromEntries(
  Object.entries(DRAFTS).map(([id, draft]) => [id, lineKind.parse(draft)]),
);

/** Kind of a line: the boat's own record counts before the catalogue. Undefined when neither has it. */
export const lineKindOf = (lineKinds: Readonly<Record<string, LineKind>>, id: string): LineKind | undefined =>
  Object.hasOwn(lineKinds, id) ? lineKinds[id] : Object.hasOwn(LINE_KINDS, id) ? LINE_KINDS[id] : undefined;
