/** A field of a record as people call it: `ratingA` is the rating, in amperes. */
export interface FieldWords {
  readonly label: string;
  /** Unit of the saved value; null: a text, a choice, a count. */
  readonly unit: string | null;
}

/** Endings of keys that carry a unit, the longest first. */
const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ['KgM3', 'kg/m³'],
  ['Mm2', 'mm²'],
  ['LMin', 'L/min'],
  ['LDay', 'L a day'],
  ['Days', 'days'],
  ['Share', 'share'],
  ['Deg', '°'],
  ['Ohm', 'ohm'],
  ['Bar', 'bar'],
  ['Kg', 'kg'],
  ['Ah', 'Ah'],
  ['Wh', 'Wh'],
  ['M2', 'm²'],
  ['MS', 'm/s'],
  ['LH', 'L/h'],
  ['M', 'm'],
  ['L', 'L'],
  ['A', 'A'],
  ['V', 'V'],
  ['W', 'W'],
  ['C', '°C'],
  ['H', 'h'],
  ['S', 's'],
];

/** Words where the key does not say it well. */
const LABELS: Readonly<Record<string, string>> = {
  massKg: 'mass',
  kgM: 'centre of gravity, height',
  lcgM: 'centre of gravity, length',
  ratingA: 'rating',
  interruptsA: 'interrupting rating',
  shortCircuitA: 'short-circuit current',
  atM: 'place',
};

/** Words and unit of the last key of a path such as `electric.ratingA`. */
export function fieldWords(path: string): FieldWords {
  const key = path.split('.').at(-1) ?? path;
  const found = UNITS.find(
    ([ending]) =>
      key.length > ending.length && key.endsWith(ending) && /[a-z0-9]/.test(key.at(-ending.length - 1) ?? ''),
  );
  const bare = found ? key.slice(0, -found[0].length) : key;
  const words = bare.replace(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase();
  return { label: LABELS[key] ?? words, unit: found ? found[1] : null };
}
