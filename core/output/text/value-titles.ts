import { digits } from './quantity-text';
import { number } from './say';

/** What to do for another value of a field, where "make it so much" does not say it. `name` is what the record is called. */
export type ValueTitle = (
  what: Readonly<Record<string, string | number>>,
  name: string,
  length: (metres: number) => string,
) => string;

const CM2_PER_M2 = 1e4;
const cm2 = (value: unknown): string => `${digits(number(value) * CM2_PER_M2, 0)} cm²`;

const clampTitle: ValueTitle = ({ to }, name) =>
  `Fit ${digits(number(to), 0)} ${number(to) === 1 ? 'clamp' : 'clamps'} on ${name}`;

/** By the path of the field in its record. */
export const VALUE_TITLES: Readonly<Record<string, ValueTitle>> = {
  sheathed: (_, name) => `Lead ${name} in a conduit or sheath all the way`,
  clipM: ({ to }, name, length) => `Clip ${name} every ${length(number(to))}`,
  ventAreaM2: ({ to, from }, name) =>
    `Give ${name} ${cm2(to)} of free vents, half of it low and half high${from === undefined ? '' : `, now ${cm2(from)}`}`,
  'electric.ratingA': ({ to, from }, name) =>
    `Replace ${name} by one of ${digits(number(to), 0)} A${from === undefined ? '' : `, now ${digits(number(from), 0)} A`}`,
  'electric.interruptsA': ({ to }, name) => `Replace ${name} by one that can interrupt ${digits(number(to), 0)} A`,
  'electric.ignitionProtected': (_, name) => `Replace ${name} by one that is built not to ignite vapour`,
  leanDeg: (_, name) => `Stand ${name} upright`,
  mountedOn: ({ surface }, name) => `Screw ${name} to ${surface}`,
  'mounting.screwM': ({ to, from }, name, length) =>
    `Take screws of ${length(number(to))} for ${name}${from === undefined ? '' : `, not ${length(number(from))}`}`,
  'ends.from.clamps': clampTitle,
  'ends.to.clamps': clampTitle,
  straightM: ({ to }, name, length) => `Keep ${name} straight for ${length(number(to))} behind its fittings`,
  waterLDay: ({ to, from }) => `Want ${digits(number(to), 0)} L of water a day, not ${digits(number(from), 0)} L`,
};
