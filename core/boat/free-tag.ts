import type { Boat } from './schema/boat';

/** The next number behind the letters that such things bear aboard; else behind the first letters of its name. */
export function freeTag(boat: Boat, { kind, name }: { readonly kind: string; readonly name: string }): string {
  const things = [...Object.values(boat.parts), ...Object.values(boat.fixtures)];
  const lettersOf = (tag: string | undefined) => tag?.match(/^[A-Z]+(?=\d+$)/)?.[0];
  const used = new Set(things.map(({ tag }) => tag));
  const letters =
    things.filter((thing) => thing.kind === kind).flatMap(({ tag }) => lettersOf(tag) ?? [])[0] ??
    // On a drawing I and O are taken for figures.
    (name
      .toUpperCase()
      .replace(/[^A-HJ-NP-Z]/g, '')
      .slice(0, 2) ||
      'X');
  let number = 1;
  while (used.has(`${letters}${number}`)) number++;
  return `${letters}${number}`;
}
