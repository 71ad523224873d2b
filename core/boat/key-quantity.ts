import type { Quantity } from '../base/quantity';

/** What the name of a key says of the number behind it: its quantity, the unit in which the file keeps it, that in which people read it. */
export interface KeyQuantity {
  readonly quantity: Quantity;
  readonly kept: string;
  readonly shown: string;
}

const of = (quantity: Quantity, kept: string, shown = kept): KeyQuantity => ({ quantity, kept, shown });

/** Whole keys first, then endings, the longer before the shorter. */
const WHOLE: Readonly<Record<string, KeyQuantity>> = {
  permeability: of('share', 'of one', '%'),
  dropShare: of('share', 'of one', '%'),
  minutes: of('time', 'min'),
  accuracy: of('length', 'm', 'mm'),
};
const ENDINGS: readonly (readonly [string, KeyQuantity])[] = [
  ['HoursDay', of('time', 'h')],
  ['AhDay', of('charge', 'Ah')],
  ['KgM3', of('density', 'kg/m3')],
  ['LMin', of('flow', 'L/min')],
  ['LDay', of('flow', 'L/d')],
  ['LH', of('flow', 'L/h')],
  ['Mm2', of('area', 'mm2')],
  ['Mm', of('length', 'mm')],
  ['M2', of('area', 'm2', 'cm2')],
  ['MS', of('speed', 'm/s', 'kn')],
  ['Deg', of('angle', '°')],
  ['Days', of('time', 'd')],
  ['Hours', of('time', 'h')],
  ['Minutes', of('time', 'min')],
  ['Share', of('share', 'of one', '%')],
  ['Bar', of('pressure', 'bar')],
  ['Ohm', of('resistance', 'ohm')],
  ['Kg', of('mass', 'kg')],
  ['Ah', of('charge', 'Ah')],
  ['Wh', of('energy', 'Wh')],
  ['M', of('length', 'm', 'mm')],
  ['L', of('volume', 'L')],
  ['A', of('current', 'A')],
  ['V', of('voltage', 'V')],
  ['W', of('power', 'W')],
  ['C', of('temperature', '°C')],
  ['H', of('time', 'h')],
  ['S', of('time', 's')],
];

/** The quantity of a key such as `boreM` or `flowLMin`; null where its name tells none: a count, a year, a price. */
export function quantityOfKey(key: string): KeyQuantity | null {
  if (Object.hasOwn(WHOLE, key)) return WHOLE[key] ?? null;
  for (const [ending, quantity] of ENDINGS) {
    const before = key.charAt(key.length - ending.length - 1);
    // `pricePerM` is money.
    if (key.endsWith(ending) && /[a-z0-9]/.test(before)) return key.startsWith('price') ? null : quantity;
  }
  return null;
}
