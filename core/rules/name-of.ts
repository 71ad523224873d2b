import type { Facts } from './facts';

/** What its owner calls a thing; of what is no thing its id. */
export const nameOf = (id: string, facts: Facts): string => facts.thing(id)?.name ?? id;

/** Path of a field of a thing in the boat file: `parts.pump.flowLMin`. */
export const pathOf = (id: string, field: string, facts: Facts): string =>
  `${facts.isPart(id) ? 'parts' : 'fixtures'}.${id}.${field}`;
