import {
  armThrough,
  type Clothing,
  openingFor,
  passesHand,
  type ReachThrough,
} from '@core/base/formulas/hand-openings';
import { describe, expect, it } from 'vitest';

/**
 * Check values: arm and hand access dimensions of MIL-STD-1472 (the same table stands in MIL-HDBK-759 and NASA-STD-3000 12.3), and tools in
 * the hand of MIL-HDBK-759. All as remembered, not read: each row stands for the pair of openings just at and just below its limit.
 */
type Row = readonly [what: ReachThrough, clothing: Clothing, depth: number, width: number, height: number];
const ROWS: readonly Row[] = [
  ['handRolled', 'bare', 100, 95, 95],
  ['handRolled', 'gloved', 100, 150, 150],
  ['handFlat', 'bare', 100, 55, 100],
  ['handFlat', 'gloved', 100, 100, 150],
  ['handFist', 'bare', 100, 95, 125],
  ['handFist', 'gloved', 100, 115, 150],
  ['hand25', 'bare', 100, 95, 95],
  ['hand25', 'gloved', 100, 150, 150],
  ['elbow', 'bare', 300, 100, 115],
  ['elbow', 'gloved', 300, 180, 180],
  ['shoulder', 'bare', 500, 125, 125],
  ['shoulder', 'gloved', 500, 215, 215],
  ['twoHands', 'bare', 150, 200, 125],
  ['twoHands', 'bare', 200, 200, 125],
  ['twoHands', 'bare', 400, 400, 125],
  ['twoHands', 'bare', 490, 490, 125],
  ['twoHands', 'bare', 600, 500, 125],
  ['twoHands', 'gloved', 200, 300, 180],
  ['twoHands', 'gloved', 400, 450, 180],
  ['screwdriver', 'bare', 0, 107, 117],
  ['pliers', 'bare', 0, 132, 115],
  ['tHandle', 'bare', 0, 135, 155],
  ['openEnd', 'bare', 0, 272, 203],
  ['allenKey', 'bare', 0, 122, 155],
  ['probe', 'bare', 0, 89, 89],
];

const passes = (what: ReachThrough, depth: number, width: number, height: number, clothing: Clothing = 'bare') =>
  passesHand({ widthM: width / 1000, heightM: height / 1000 }, openingFor(what, depth / 1000, clothing));

describe('openings for hand and arm (MIL-STD-1472, from memory)', () => {
  it.each(ROWS)('%s, %s, %i mm deep: %i x %i mm just passes, a millimetre less either way does not', (...row) => {
    const [what, clothing, depth, width, height] = row;
    expect(passes(what, depth, width, height, clothing).met).toBe(true);
    expect(passes(what, depth, width - 1, height, clothing).met).toBe(false);
    expect(passes(what, depth, width, height - 1, clothing).met).toBe(false);
    expect(passes(what, depth, width + 7, height + 7, clothing).spareM).toBeCloseTo(0.007, 12);
  });

  // The pairs at the limit that are published beside the table.
  it.each([
    ['one arm to the shoulder through 110 x 110', 'shoulder', 500, 110, 110, false],
    ['an arm to the elbow through 120 x 105', 'elbow', 300, 120, 105, true],
    ['two hands 400 deep, 380 wide', 'twoHands', 400, 380, 125, false],
    ['two hands 400 deep, 400 wide', 'twoHands', 400, 400, 125, true],
    ['two hands 400 deep, 120 high', 'twoHands', 400, 400, 120, false],
  ] as const)('%s: %s', (_, what, depth, width, height, met) => {
    expect(passes(what, depth, width, height).met).toBe(met);
  });

  it('says what is missing: 110 of 125 mm', () => {
    expect(passes('shoulder', 500, 110, 110).spareM).toBeCloseTo(-0.015, 12);
  });

  it('one hand rolls with the opening, two stay beside each other', () => {
    expect(passes('handFist', 100, 125, 95).met).toBe(true);
    expect(passes('twoHands', 400, 125, 400).met).toBe(false);
  });

  // Published: diameters of round openings.
  it.each([
    ['handRolled', 95],
    ['handFlat', 100],
    ['handFist', 125],
    ['hand25', 95],
    ['shoulder', 125],
  ] as const)('%s goes through a round opening of %i mm, not of one less', (what, diameter) => {
    const round = (mm: number) => ({ widthM: mm / 1000, heightM: mm / 1000, round: true });
    expect(passesHand(round(diameter), openingFor(what, 0.5)).met).toBe(true);
    expect(passesHand(round(diameter - 1), openingFor(what, 0.5)).met).toBe(false);
  });

  it('two hands 400 deep want a round opening about their rectangle (derived: hypot(400, 125) = 419.1 mm)', () => {
    const at = (mm: number) =>
      passesHand({ widthM: mm / 1000, heightM: mm / 1000, round: true }, openingFor('twoHands', 0.4)).met;
    expect([at(419), at(420)]).toEqual([false, true]);
  });

  it('what is in the opening grows with depth: hand, forearm, upper arm (from memory)', () => {
    expect([0.05, 0.2, 0.21, 0.3, 0.31, 0.6].map(armThrough)).toEqual([
      'handFist',
      'handFist',
      'elbow',
      'elbow',
      'shoulder',
      'shoulder',
    ]);
  });
});
