import { describe, it } from 'vitest';
import { completeBoats, expectMovesToSettle } from './moved-boats';

describe('random moves of random parts', () => {
  it.each(completeBoats())(
    'settle as a cold check of the saved file of %s',
    (name) => {
      expectMovesToSettle(name, 5, 1);
    },
    240_000,
  );
});
