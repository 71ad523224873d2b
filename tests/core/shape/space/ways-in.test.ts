import type { Boat, Opening } from '@core/boat/schema/boat';
import { opening as openingSchema } from '@core/boat/schema/interior';
import { diagonalOf, openingFrame, waysIn } from '@core/shape/space/ways-in';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf, panelData } from '../layout/boats';

const opening = (more: Record<string, unknown>): Opening =>
  openingSchema.parse({
    name: 'lid',
    compartment: 'a',
    at: [0, 0, 0],
    normal: [0, 0, 1],
    widthM: 0.4,
    heightM: 0.3,
    ...more,
  });

const compartments: Boat['compartments'] = {
  saloon: boxIn('plan', [0, -1, 0], [2, 1, 2], { kind: 'cabin' }),
  galley: boxIn('plan', [2, -1, 0], [3, 1, 2], { kind: 'cabin' }),
  bench: boxIn('plan', [0, 1, 0], [2, 1.6, 0.5], { kind: 'locker' }),
  void: boxIn('plan', [0, 1.6, 0], [2, 2, 0.5], { kind: 'void' }),
  lazarette: boxIn('plan', [-1, -1, 0], [0, 1, 1], { kind: 'lazarette' }),
};
const openings: Boat['openings'] = {
  benchLid: opening({ compartment: 'bench', to: 'saloon', at: [1, 1.3, 0.5] }),
  benchFront: opening({ compartment: 'bench', to: 'saloon', at: [1, 1, 0.25], normal: [0, -1, 0] }),
  voidBoard: opening({ compartment: 'void', to: 'bench', at: [1, 1.6, 0.25], normal: [0, -1, 0] }),
  voidHatch: opening({ compartment: 'void', to: 'outside', at: [1, 1.8, 0.5] }),
  hatch: opening({ compartment: 'lazarette', to: 'outside', at: [-0.5, 0, 1] }),
};

describe('ways into a compartment', () => {
  const ways = (id: string, layout = layoutOf(compartments), some = openings) =>
    waysIn(layout, { compartments, openings: some }, id).map((w) => w.openings);

  it('is the empty way where people stand', () => {
    expect(ways('saloon')).toEqual([[]]);
  });
  it('lists the chains from where a person stands, fewest openings first', () => {
    expect(ways('bench')).toEqual([['benchFront'], ['benchLid'], ['voidHatch', 'voidBoard']]);
    expect(ways('void')).toEqual([['voidHatch'], ['benchFront', 'voidBoard'], ['benchLid', 'voidBoard']]);
    expect(waysIn(layoutOf(compartments), { compartments, openings }, 'void')[1]?.through).toEqual([
      'saloon',
      'bench',
      'void',
    ]);
  });
  it('goes through open panels without an opening', () => {
    const { benchFront: _, benchLid: __, ...rest } = openings;
    expect(ways('bench', undefined, rest)).toEqual([['voidHatch', 'voidBoard']]);
    const open = layoutOf(compartments, {
      panels: { p: panelData(['bench', 'saloon'], [1, 1, 0.25], { rule: 'open' }) },
    });
    const found = waysIn(open, { compartments, openings: rest }, 'bench');
    expect(found[0]).toEqual({ openings: [], through: ['saloon', 'bench'], openPanels: ['bench|saloon'] });
  });
  it('finds none into a space without openings', () => {
    expect(ways('void', undefined, {})).toEqual([]);
  });
  it('does not depend on the order of the records', () => {
    const turned = Object.fromEntries(Object.entries(openings).reverse());
    expect(waysIn(layoutOf(compartments), { compartments, openings: turned }, 'void')).toEqual(
      waysIn(layoutOf(compartments), { compartments, openings }, 'void'),
    );
  });
});

describe('an opening and its compartment', () => {
  it('has its height upright, of a flat lid forward', () => {
    expect(openingFrame(openings.benchFront as Opening).up).toEqual([0, 0, 1]);
    expect(openingFrame(openings.hatch as Opening).up).toEqual([1, 0, 0]);
    expect(openingFrame(opening({ normal: [0, -1, 0], up: [1, 0, 0.2] })).up[0]).toBeCloseTo(
      Math.cos(Math.atan(0.2)),
      9,
    );
  });
  it('has a longest line in it, from corner to corner', () => {
    expect(diagonalOf(layoutOf(compartments), 'bench')).toBeCloseTo(Math.hypot(2, 0.6, 0.5), 9);
  });
});
