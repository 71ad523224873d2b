import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { drillingOf } from '@core/output/takeoff/hole-place';
import type { HullSurface } from '@core/shape/hull/types';
import { deriveLayout } from '@core/shape/layout/derive';
import type { Layout, Panel } from '@core/shape/layout/types';
import { describe, expect, it } from 'vitest';

/** Two lockers fore and aft of a bulkhead at x = 1.0 to 1.015, and one below the aft one: shelf at z = -0.012 to 0. */
function lockers(): { readonly boat: Boat; readonly layout: Layout } {
  const box = (name: string, x: [number, number], y: [number, number], rangeM: [number, number]) => ({
    name,
    view: 'plan',
    outline: [
      [x[0], y[0]],
      [x[1], y[0]],
      [x[1], y[1]],
      [x[0], y[1]],
    ],
    rangeM,
  });
  const read = checkBoat({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Lockers',
    compartments: {
      aft: box('Aft locker', [0, 1], [-0.6, 0.6], [0, 0.8]),
      fore: box('Fore locker', [1.015, 3.015], [-0.5, 0.6], [0, 0.8]),
      below: box('Below', [0, 1], [-0.6, 0.6], [-0.5, -0.012]),
    },
  });
  if (!read.ok) throw new Error('expected a boat');
  const { compartments, panels, newHoleCostM } = read.boat;
  return { boat: read.boat, layout: deriveLayout({ compartments, panels, newHoles: {}, newHoleCostM }) };
}

const { layout } = lockers();
const panelBetween = (a: string, b: string): Panel => {
  const panel = Object.values(layout.panels).find(({ between }) => between.includes(a) && between.includes(b));
  if (!panel) throw new Error(`no panel between ${a} and ${b}`);
  return panel;
};
const asked = (canEnter: readonly string[], hull: HullSurface | null = null) => ({
  layout,
  hull,
  canEnter: (id: string) => canEnter.includes(id),
});
const rounded = (edges: readonly { side: string; distanceM: number }[]) =>
  edges.map(({ side, distanceM }) => [side, Math.round(distanceM * 1000)]);

describe('where a hole is drilled', () => {
  const bulkhead = panelBetween('aft', 'fore');

  it('is measured from two sides of the compartment that one drills from, square to each other', () => {
    // Derived: y 0.1 is 500 from port at 0.6; z 0.2 is 200 above the bottom at 0.
    const { from, edges } = drillingOf(bulkhead, [1.0075, 0.1, 0.2], asked(['aft']));
    expect([from, rounded(edges)]).toEqual([
      'aft',
      [
        ['port', 500],
        ['bottom', 200],
      ],
    ]);
  });

  it('is measured from the other side of the panel by what bounds that side', () => {
    // Derived: the fore locker ends at y -0.5, the aft one at -0.6: 100 from starboard there, 200 here.
    const at = [1.0075, -0.4, 0.7] as const;
    expect(rounded(drillingOf(bulkhead, at, asked(['fore'])).edges)).toEqual([
      ['starboard', 100],
      ['top', 100],
    ]);
    expect(rounded(drillingOf(bulkhead, at, asked(['aft'])).edges)).toEqual([
      ['starboard', 200],
      ['top', 100],
    ]);
  });

  it('is drilled from the side with more room behind the drill, where both can be entered', () => {
    // Derived: 2 m forward of the bulkhead, 1 m aft of it.
    expect(drillingOf(bulkhead, [1.0075, 0, 0.4], asked(['aft', 'fore'])).from).toBe('fore');
  });

  it('in a shelf is measured along the boat and across it', () => {
    const shelf = panelBetween('aft', 'below');
    // Derived: x 0.3 is 300 from the aft end, y -0.45 is 150 from starboard.
    const { from, edges } = drillingOf(shelf, [0.3, -0.45, -0.006], asked(['aft']));
    expect([from, rounded(edges)]).toEqual([
      'aft',
      [
        ['aft', 300],
        ['starboard', 150],
      ],
    ]);
  });

  it('is not known from where nobody can enter either side', () => {
    expect(drillingOf(bulkhead, [1.0075, 0, 0.4], asked([]))).toEqual({ from: null, edges: [] });
  });

  it('is measured from flat sides rather than from the hull, and from the hull where there is nothing else', () => {
    // A skin that leaves half a metre to either side of the centreline, all the way up.
    const hull = {
      sheerAt: () => 2,
      contains: ([, y]: readonly [number, number, number]) => Math.abs(y) < 0.5,
    } as unknown as HullSurface;
    const { edges } = drillingOf(bulkhead, [1.0075, 0.1, 0.2], asked(['aft'], hull));
    // Derived: y 0.1 is 400 from the skin at 0.5 to port, nearer than the 600 to starboard.
    expect(rounded(edges)).toEqual([
      ['hull', 400],
      ['bottom', 200],
    ]);
  });
});
