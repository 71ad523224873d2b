import { mends } from '@core/engine/remedies/mending';
import { remedyText } from '@core/output/text/remedy-text';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { faultyBoat } from '../../rules/judged';

const titles = (rule: string, key: string) => {
  const boat = boatOf(faultyBoat(rule));
  return mends(boat, key).map((remedy) => remedyText(remedy, boat).title);
};

describe('another value as something to do', () => {
  it.each([
    ['power/fuse-distance', '|feed|', 'Lead Bank to fuse in a conduit or sheath all the way'],
    ['power/fuse-size', '|fuse|', 'Replace Fuse by one of 25 A, now 150 A'],
    ['power/fuse-interrupts', '|fuse|', 'Replace Fuse by one that can interrupt 20\u2009000 A'],
    ['power/cable-support', '|on|', 'Clip Fuse to deck-wash pump every 450 mm'],
    ['power/cool', '|pump|', 'Give Long locker 200 cm² of free vents, half of it low and half high'],
    ['power/day-budget', '|pump|', 'Want 28 L of water a day, not 60 L'],
    ['power/ignition', '|motor|', 'Replace Blower by one that is built not to ignite vapour'],
  ])('%s: %s', (rule, key, title) => {
    expect(titles(rule, `${rule}${key}`)).toContain(title);
  });
});
