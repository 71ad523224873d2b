import type { Boat, Opening } from '@core/boat/schema/boat';
import { opening as openingSchema } from '@core/boat/schema/interior';
import { depthBehind, diagonalOf, openingFrame, sidesBehind, waysIn } from '@core/shape/space/ways-in';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf, panelData } from '../layout/boats';
import { box } from './scenes';

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

describe('room behind an opening', () => {
  const around = (solids: Parameters<typeof depthBehind>[3]['solids'] = []) => ({
    layout: layoutOf(compartments),
    hull: null,
    solids,
  });
  const front = openings.benchFront as Opening;

  it('measures its height upright, of a flat lid forward', () => {
    expect(openingFrame(front).up).toEqual([0, 0, 1]);
    expect(openingFrame(openings.hatch as Opening).up).toEqual([1, 0, 0]);
    expect(openingFrame(opening({ normal: [0, -1, 0], up: [1, 0, 0.2] })).up[0]).toBeCloseTo(
      Math.cos(Math.atan(0.2)),
      9,
    );
  });
  it('is as deep as the compartment, without the wall that the opening is cut into', () => {
    // derived: the bench is 0.6 m deep from its front, 0.5 m from its lid.
    expect(depthBehind(front, [0.3, 0.2], 2, around()).freeM).toBeCloseTo(0.6, 9);
    expect(depthBehind(openings.benchLid as Opening, [0.3, 0.2], 2, around()).freeM).toBeCloseTo(0.5, 9);
  });
  it('is that of the side of the opening where a side that leans leaves most', () => {
    // derived: section 0.3 deep at z 0, 0.9 at z 0.6; a section 0.1 high under the upper edge of the opening, at z 0.55, has its foot at
    // 0.45 (and a graze of 0.1 mm), where the room is 0.3 + 0.45 = 0.75 deep; in the middle, foot at 0.25, it would be 0.55.
    const leaning = layoutOf({
      bench: {
        name: 'bench',
        view: 'section',
        outline: [
          [0, 0],
          [0.3, 0],
          [0.9, 0.6],
          [0, 0.6],
        ],
        rangeM: [0, 1],
        kind: 'locker',
        yawDeg: 0,
        grade: 'taped',
      },
    });
    const tall = opening({ compartment: 'bench', at: [0.5, 0, 0.3], normal: [0, -1, 0], widthM: 0.4, heightM: 0.5 });
    expect(depthBehind(tall, [0.3, 0.1], 2, { layout: leaning, hull: null, solids: [] }).freeM).toBeCloseTo(0.75, 3);
  });
  it('ends at what stands behind the opening', () => {
    const found = depthBehind(front, [0.3, 0.2], 2, around([box('tank', [1.1, 1.45, 0.2], [0.1, 0.1, 0.1])]));
    expect(found.freeM).toBeCloseTo(0.4, 9);
    expect(found.blocker?.owner).toBe('tank');
  });
  it('is as wide as the compartment to each side', () => {
    // derived: from x = 1: 1 m both ways; the middle is at half height: 0.25 m up and down. Facing starboard with z up, the
    // width counts forward first.
    const sides = sidesBehind(front, 0.1, 0.4, 3, around());
    expect(sides.map((v) => Math.round(v * 1e6) / 1e6)).toEqual([1, 1, 0.25, 0.25]);
    expect(diagonalOf(layoutOf(compartments), 'bench')).toBeCloseTo(Math.hypot(2, 0.6, 0.5), 9);
  });
});
