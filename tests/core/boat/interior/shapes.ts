import { signedArea } from '@core/base/ring';
import { type BoatRecipe, edit } from '@core/boat/edits';
import type { Boat, Compartment } from '@core/boat/schema/boat';
import type { Dice } from '../../../support/dice';
import { boatOf } from '../boat-of';

export const drawnBoat = (records: object): Boat =>
  boatOf({ format: 'underberth-boat', schemaVersion: 1, name: 'Drawn', ...records });

/** The edited boat; refused edits are a failure of the test. */
export const done = (boat: Boat, recipe: BoatRecipe): Boat => {
  const result = edit(boat, recipe);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
};

export const box = (
  name: string,
  [x0, x1]: readonly [number, number],
  [y0, y1]: readonly [number, number],
  [z0, z1]: readonly [number, number],
): object => ({
  name,
  view: 'plan',
  outline: [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ],
  rangeM: [z0, z1],
});

/** Volume of a compartment as drawn: area of its outline times its range. */
export const volumeOf = (own: Pick<Compartment, 'outline' | 'rangeM'>): number =>
  Math.abs(signedArea(own.outline)) * (own.rangeM[1] - own.rangeM[0]);

export const compartmentOf = (boat: Boat, id: string): Compartment => {
  const own = boat.compartments[id];
  if (!own) throw new Error(`expected the compartment ${id}`);
  return own;
};

/** A star-shaped outline of 4 to 9 corners about a point: simple, often hollow. */
export function outlineAt(luck: Dice, [cu, cv]: readonly [number, number]): [number, number][] {
  const count = 4 + luck.whole(6);
  return Array.from({ length: count }, (_, i): [number, number] => {
    const angle = ((i + luck.from(0, 0.6)) / count) * 2 * Math.PI;
    const radius = luck.from(0.25, 0.8);
    return [
      Math.round((cu + radius * Math.cos(angle)) * 1e6) / 1e6,
      Math.round((cv + radius * Math.sin(angle)) * 1e6) / 1e6,
    ];
  });
}
