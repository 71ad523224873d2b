import { type Balance, balance } from '@core/assess/flooding/balance';
import { spreadOf, waterways } from '@core/assess/flooding/waterways';
import { boatSchema } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';
import { deriveLayout } from '@core/shape/layout/derive';
import { describe, expect, it } from 'vitest';

/**
 * A box of 8 x 3 m with its bottom at z = -0.5 m, upright at z = 0: V = 12 m3, water plane 24 m2 (derived). Compartments are boxes between
 * its bottom and its deck, one metre up.
 */
const ends = [0, 8].map((xM): [string, unknown] => [
  `s${xM}`,
  {
    xM,
    points: [
      [0, -0.5],
      [1.5, -0.5],
      [1.5, 1],
    ],
    knuckles: [1],
  },
]);

const room = (x0: number, x1: number, y0: number, y1: number, top = 1) => ({
  name: 'Room',
  view: 'plan',
  outline: [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ],
  rangeM: [-0.5, top],
});

function floods(compartments: Record<string, unknown>, start: string, limbers: Record<string, unknown> = {}): Balance {
  const boat = boatSchema.parse({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Box',
    hull: { stations: Object.fromEntries(ends), shellM: 0 },
    compartments,
    flooding: { limberHoles: limbers },
  });
  const { panels, newHoleCostM } = boat;
  const layout = deriveLayout({ compartments: boat.compartments, panels, newHoles: {}, newHoleCostM });
  const hull = boat.hull ? hullSurface(boat.hull) : null;
  const ways = waterways({ layout, openings: {}, limberHoles: boat.flooding?.limberHoles ?? {}, drilled: [] });
  const sea = { up: [0, 0, 1], levelM: 0 } as const;
  return balance(start, { layout, hull, spread: spreadOf(ways, sea), permeability: () => 1 }, sea);
}

describe('static balance of a box', () => {
  it('a full-breadth metre lost: V = 21 (0.5 + s) keeps 12 m3 at s = 71.43 mm (derived: lost buoyancy)', () => {
    const found = floods({ well: room(2, 3, -1.5, 1.5) }, 'well');
    expect(found).toMatchObject({ founders: false });
    expect(found.sinkageM).toBeCloseTo(12 / 21 - 0.5, 4);
    expect(found.water.levelM).toBeCloseTo(12 / 21 - 0.5, 4);
  });

  it('a room that the water fills to its top only loses what is in it: 24 (0.5 + s) - 6 x 0.1 = 12 at s = 25 mm', () => {
    // The published example of sinkage by an added 0.6 m3 over a water plane of 8 x 3 m gives the same 25.0 mm.
    expect(floods({ bilge: room(2, 8, -0.5, 0.5, -0.4) }, 'bilge').sinkageM).toBeCloseTo(0.025, 4);
  });

  it('more than she can carry: 7 of 8 metres open to the sea leave 3 (0.5 + s) below the deck, at most 4.5 m3', () => {
    expect(floods({ hold: room(0.5, 7.5, -1.5, 1.5) }, 'hold')).toMatchObject({ founders: true, sinkageM: 1 });
  });

  it('a lower edge that only the sinkage brings under water lets it on', () => {
    const rooms = { well: room(2, 3, -1.5, 1.5), next: room(3, 4, -1.5, 1.5) };
    const limber = (z: number) => ({ hole: { between: ['well', 'next'], at: [3, 0, z], diameterM: 0.02 } });
    // alone the well sinks her 71 mm: the lower edge at 60 mm is then under, and both rooms are lost, 18 (0.5 + s) = 12
    expect(floods(rooms, 'well', limber(0.07)).sinkageM).toBeCloseTo(12 / 18 - 0.5, 4);
    expect(floods(rooms, 'well', limber(0.09)).sinkageM).toBeCloseTo(12 / 21 - 0.5, 4);
  });
});
