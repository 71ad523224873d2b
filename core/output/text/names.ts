import type { Boat } from '../../boat/schema/boat';

/** What people call a record: a thing with its tag, a line, a compartment, an opening, a derived panel, the hull. */
export function nameOf(boat: Boat, id: string): string {
  const own = (
    records: Readonly<Record<string, { readonly name?: string | undefined; readonly tag?: string | undefined }>>,
  ) => (Object.hasOwn(records, id) ? records[id] : undefined);
  const thing = own(boat.parts) ?? own(boat.fixtures) ?? own(boat.lines);
  if (thing) return thing.tag ? `${thing.name} (${thing.tag})` : (thing.name ?? id);
  const place = own(boat.compartments) ?? own(boat.openings) ?? own(boat.panels) ?? own(boat.mountingSurfaces);
  if (place?.name) return place.name;
  if (id === 'hull') return 'the hull';
  if (id.includes('|')) return panelName(boat, id);
  return id;
}

/**
 * What stands in the way, within a sentence: of a compartment it is one of its sides, and so is a wall
 * (its id begins with that of its compartment). `label` names the side where it is known.
 */
export function obstacleName(boat: Boat, id: string, label = ''): string {
  const [owner = id] = id.split('/');
  if (Object.hasOwn(boat.compartments, owner))
    return label === '' ? `a side of ${nameOf(boat, owner)}` : `the ${label}`;
  const name = nameOf(boat, owner);
  return name.startsWith('panel between ') ? `the ${name}` : name;
}

/** A derived panel is called by its record's name if that pair has just one, else by what it parts. */
function panelName(boat: Boat, id: string): string {
  const [pair = id] = id.split('#');
  const [a = '', b = ''] = pair.split('|');
  const named = Object.values(boat.panels).filter(
    (panel) => panel.name && panel.between.includes(a) && panel.between.includes(b),
  );
  if (named.length === 1 && !id.includes('#') && named[0]?.name) return named[0].name;
  const side = (key: string) => {
    if (Object.hasOwn(boat.compartments, key)) return boat.compartments[key]?.name ?? key;
    return key === 'undrawn' ? 'undrawn space' : key === 'skin' ? 'the skin of the hull' : key;
  };
  return `panel between ${side(a)} and ${side(b)}`;
}

/** Only so many by name: `a, b, c and 2 more`. One more is named. */
export const listedUpTo = (names: readonly string[], most: number): string =>
  listed(names.length <= most + 1 ? names : [...names.slice(0, most), `${names.length - most} more`]);

/** `a, b and c` */
export const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
