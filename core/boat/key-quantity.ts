import type { Quantity } from '../base/quantity';

/** What the name of a key says of the number behind it: its quantity, the unit in which the file keeps it, that in which people read it. */
export interface KeyQuantity {
  readonly quantity: Quantity;
  readonly kept: string;
  readonly shown: string;
}

interface KeyUnit {
  /** The kept unit in words, as it stands behind a number. */
  readonly words: string;
  /** Null: it is typed in this unit alone. */
  readonly quantity: KeyQuantity | null;
}

const of = (quantity: Quantity, kept: string, shown = kept, words = kept): KeyUnit => ({
  words,
  quantity: { quantity, kept, shown },
});

const SHARE = of('share', 'of one', '%', 'share');

/** Keys that carry no ending and yet have a unit. */
const WHOLE: Readonly<Record<string, KeyUnit>> = {
  permeability: SHARE,
  minutes: of('time', 'min'),
  accuracy: of('length', 'm', 'mm'),
};

/** Endings of keys that carry a unit, the longer before the shorter. */
const ENDINGS: readonly (readonly [ending: string, unit: KeyUnit])[] = [
  ['HoursDay', of('time', 'h', 'h', 'h a day')],
  ['HoursYear', of('time', 'h', 'h', 'h a year')],
  ['Minutes', of('time', 'min')],
  ['AhDay', of('charge', 'Ah', 'Ah', 'Ah a day')],
  ['KgM3', of('density', 'kg/m3', 'kg/m3', 'kg/m³')],
  ['LMin', of('flow', 'L/min')],
  ['LDay', of('flow', 'L/d', 'L/d', 'L a day')],
  ['LH', of('flow', 'L/h')],
  ['Mm2', of('area', 'mm2', 'mm2', 'mm²')],
  ['Mm', of('length', 'mm')],
  ['M2', of('area', 'm2', 'cm2', 'm²')],
  ['MS', of('speed', 'm/s', 'kn')],
  ['WK', { words: 'W/K', quantity: null }],
  ['Deg', of('angle', '°')],
  ['Days', of('time', 'd', 'd', 'days')],
  ['Share', SHARE],
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
  ['K', { words: 'K', quantity: null }],
];

/** The quantity of a key such as `boreM` or `flowLMin`; null where its name tells none: a count, a year, a price. */
export function quantityOfKey(key: string): KeyQuantity | null {
  return unitOfKey(key)?.quantity ?? null;
}

/** Unit of a key in words, and the key without it: `boreM` is `bore`, in m; null as for its quantity. */
export function unitOfKey(key: string): (KeyUnit & { readonly bare: string }) | null {
  const whole = Object.hasOwn(WHOLE, key) ? WHOLE[key] : undefined;
  if (whole) return { ...whole, bare: key };
  for (const [ending, unit] of ENDINGS) {
    const bare = key.slice(0, -ending.length);
    // `pricePerM` is money.
    if (key.endsWith(ending) && /[a-z0-9]$/.test(bare)) return key.startsWith('price') ? null : { ...unit, bare };
  }
  return null;
}
