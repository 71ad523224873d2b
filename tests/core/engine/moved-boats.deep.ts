import { describe, it } from 'vitest';
import { completeBoats, expectMovesToSettle } from './moved-boats';

describe('many random moves of random parts', () => {
  it.each(completeBoats())(
    'settle as a cold check of the saved file of %s',
    (name) => {
      expectMovesToSettle(name, 50, 2);
    },
    1_800_000,
  );
});
