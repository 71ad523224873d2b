import { expect, it } from 'vitest';
import { expectStoriesToSettle } from './story';

/** Another first seed: LAW_SEED. */
const FIRST = Number(process.env.LAW_SEED ?? 1);

it('a session at rest gives the cold answer after each of 200 sequences of edits, undo and drags', () => {
  expectStoriesToSettle(FIRST, 200);
  expect.hasAssertions();
});
