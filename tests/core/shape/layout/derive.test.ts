import { describe, expect, it } from 'vitest';
import { areaInSpace, boxIn, compartment, layoutOf, panelData } from './boats';

const VIEWS = ['plan', 'profile', 'section'] as const;

describe('panels between compartments', () => {
  // derived: two boxes 1 x 1 x 0.5 m and 0.8 x 0.6 x 0.4 m, 18 mm apart along x; they face each other over 0.6 x 0.4 m.
  for (const first of VIEWS)
    for (const second of VIEWS)
      it(`finds the bulkhead between a box drawn in ${first} and one drawn in ${second}`, () => {
        const layout = layoutOf({
          aft: boxIn(first, [0, 0, 0], [1, 1, 0.5]),
          fore: boxIn(second, [1.018, 0.2, 0.05], [1.818, 0.8, 0.45]),
        });
        const panel = layout.panels['aft|fore'];
        expect(Object.keys(layout.panels)).toEqual(['aft|fore']);
        expect(panel?.normal[0]).toBeCloseTo(1, 12);
        expect(panel?.areaM2).toBeCloseTo(0.24, 9);
        expect(panel?.thicknessM).toBeCloseTo(0.018, 9);
        expect(panel?.rule).toBe('drill');
        for (const p of panel?.pieces.flat() ?? []) expect(p[0]).toBeCloseTo(1.009, 9);
        expect(layout.overlaps).toEqual([]);
      });

  it('joins the underside of a berth drawn in plan to a wedge drawn in section', () => {
    // derived: the wedge is 0.9 m wide at the top, flush with the berth's bottom over 1.2 m of length.
    const layout = layoutOf({
      berth: boxIn('plan', [2, 0, 0.4], [3.2, 0.9, 0.8]),
      bilge: compartment(
        'section',
        [
          [0, -0.4],
          [0.9, 0.4],
          [0, 0.4],
        ],
        [2, 3.2],
      ),
    });
    expect(layout.panels['berth|bilge']?.normal).toEqual([0, 0, -1]);
    expect(layout.panels['berth|bilge']?.areaM2).toBeCloseTo(1.08, 9);
  });

  it('asks for anti-parallel faces with a gap from -4 to 60 mm', () => {
    const at = (gap: number) =>
      Object.keys(
        layoutOf({ a: boxIn('plan', [0, 0, 0], [1, 1, 1]), b: boxIn('section', [1 + gap, 0, 0], [2, 1, 1]) }).panels,
      ).length;
    expect([-0.0041, -0.0039, 0, 0.0599, 0.0601].map(at)).toEqual([0, 1, 1, 1, 0]);
  });

  it('takes no strip narrower than 20 mm for a panel', () => {
    const shared = (width: number) =>
      Object.keys(
        layoutOf({
          a: boxIn('plan', [0, 0, 0], [1, 1, 1]),
          b: boxIn('plan', [1, 1 - width, 0], [2, 2 - width, 1]),
        }).panels,
      ).length;
    expect([0.0199, 0.0201].map(shared)).toEqual([0, 1]);
  });

  it('lets a thin compartment in the gap take its part of the face', () => {
    // derived: a 30 mm void stands in the lower half of a 50 mm gap; the two boxes keep the upper half, 1 x 0.5 m.
    const layout = layoutOf({
      a: boxIn('plan', [0, 0, 0], [1, 1, 1]),
      b: boxIn('plan', [1.05, 0, 0], [2, 1, 1]),
      void: boxIn('plan', [1.01, 0, 0], [1.04, 1, 0.5]),
    });
    expect(layout.panels['a|b']?.areaM2).toBeCloseTo(0.5, 9);
    expect(layout.panels['a|void']?.areaM2).toBeCloseTo(0.5, 9);
    expect(layout.panels['b|void']?.areaM2).toBeCloseTo(0.5, 9);
  });

  it('numbers several panels of one pair by position and shows no seam in their outline', () => {
    // derived: a U in plan embraces a box: two sides of 0.5 x 1 m and the bottom of the U of 0.4 x 1 m.
    const layout = layoutOf({
      u: compartment(
        'plan',
        [
          [0, 0],
          [1, 0],
          [1, 0.2],
          [0.5, 0.2],
          [0.5, 0.6],
          [1, 0.6],
          [1, 0.8],
          [0, 0.8],
        ],
        [0, 1],
      ),
      v: boxIn('plan', [0.5, 0.2, 0], [1, 0.6, 1]),
    });
    expect(Object.keys(layout.panels).sort()).toEqual(['u|v', 'u|v#2', 'u|v#3']);
    expect(layout.panels['u|v']?.areaM2).toBeCloseTo(0.4, 9);
    // The top of a C in profile over one long box: coplanar pieces of one pair are one panel with one outline.
    const c = layoutOf({
      c: compartment(
        'plan',
        [
          [0, 0],
          [1, 0],
          [1, 0.4],
          [0.6, 0.4],
          [0.6, 1],
          [0, 1],
        ],
        [0, 0.5],
      ),
      under: boxIn('plan', [0, 0, -0.5], [1, 1, 0]),
    });
    const panel = c.panels['c|under'];
    expect(panel?.pieces.length).toBe(2);
    expect(panel?.areaM2).toBeCloseTo(0.76, 9);
    const around = (panel?.edges ?? []).reduce((s, [p, q]) => s + Math.hypot(p[0] - q[0], p[1] - q[1]), 0);
    expect(around).toBeCloseTo(4, 9); // the L's own outline: 1 + 0.4 + 0.4 + 0.6 + 0.6 + 1
  });
});

describe('data of panels', () => {
  const boat = {
    a: boxIn('plan', [0, 0, 0], [1, 1, 1], { name: 'galley' }),
    b: boxIn('plan', [1, 0, 0], [2, 1, 1], { name: 'engine space' }),
  };

  it('binds a record to the nearest panel of its pair, whatever the order of the pair', () => {
    const layout = layoutOf(boat, {
      panels: {
        main: panelData(['b', 'a'], [1.1, 0.5, 0.5], {
          rule: 'noDrill',
          thicknessM: 0.02,
          holes: {
            h1: { at: [1.05, 0.3, 0.4], diameterM: 0.03, carries: { loom: { name: 'loom', diameterM: 0.01 } } },
          },
        }),
      },
    });
    const panel = layout.panels['a|b'];
    expect(panel).toMatchObject({ dataId: 'main', rule: 'noDrill', thicknessM: 0.02, edgeM: 0.015, newHoleCostM: 0.5 });
    expect(panel?.holes).toEqual([
      { id: 'h1', at: [1, 0.3, 0.4], diameterM: 0.03, carries: [{ name: 'loom', diameterM: 0.01 }] },
    ]);
    expect(panel?.name).toBe('bulkhead between galley and engine space');
  });

  it('gives a panel to the nearer of two records and keeps the other as an orphan', () => {
    const layout = layoutOf(boat, {
      panels: {
        far: panelData(['a', 'b'], [1.2, 0.5, 0.5]),
        near: panelData(['a', 'b'], [1.1, 0.5, 0.5]),
        lost: panelData(['a', 'b'], [1.31, 0.5, 0.5]),
        gone: panelData(['a', 'c'], [1, 0.5, 0.5]),
      },
    });
    expect(layout.panels['a|b']?.dataId).toBe('near');
    expect(layout.orphans).toEqual([
      { dataId: 'far', what: 'panel', reason: 'takenByNearer' },
      { dataId: 'gone', what: 'panel', reason: 'noSuchPair' },
      { dataId: 'lost', what: 'panel', reason: 'tooFar' },
    ]);
  });

  it('adds the holes that the arrangement has decided on', () => {
    const layout = layoutOf(boat, {
      newHoles: {
        n1: { between: ['a', 'b'], at: [1.02, 0.5, 0.5], diameterM: 0.025, for: [] },
        n2: { between: ['a', 'b'], at: [1.5, 0.5, 0.5], diameterM: 0.025, for: [] },
      },
    });
    expect(layout.panels['a|b']?.holes).toEqual([
      { id: 'n1', newHoleId: 'n1', at: [1, 0.5, 0.5], diameterM: 0.025, carries: [], planned: true },
    ]);
    expect(layout.orphans).toEqual([{ dataId: 'n2', what: 'newHole', reason: 'tooFar' }]);
  });

  it('plans no hole in a panel that is open', () => {
    const layout = layoutOf(boat, {
      panels: { way: { ...panelData(['a', 'b'], [1, 0.5, 0.5]), rule: 'open' } },
      newHoles: { n1: { between: ['a', 'b'], at: [1, 0.5, 0.5], diameterM: 0.025, for: [] } },
    });
    expect(layout.panels['a|b']?.holes).toEqual([]);
    expect(layout.orphans).toEqual([{ dataId: 'n1', what: 'newHole', reason: 'openPanel' }]);
  });

  it('keeps data towards undrawn space on the wall, and data towards the skin without a face', () => {
    const layout = layoutOf(boat, {
      panels: {
        end: panelData(['b', 'undrawn'], [2.05, 0.5, 0.5], { thicknessM: 0.03, name: 'watertight bulkhead' }),
        skin: panelData(['a', 'skin'], [0.5, 1, 0.2]),
      },
    });
    expect(layout.orphans).toEqual([]);
    const wall = layout.walls.find((w) => w.dataId === 'end');
    expect(wall).toMatchObject({ thicknessM: 0.03, label: 'watertight bulkhead' });
    // The plate stands outside the compartment: its middle is half its thickness beyond the face.
    expect(wall?.polygon.map((p) => p[0])).toEqual([2.015, 2.015, 2.015, 2.015]);
  });
});

describe('cells and walls', () => {
  it('finds the compartment of a point, the smallest where several hold it', () => {
    const layout = layoutOf({
      saloon: boxIn('plan', [0, -1, 0], [3, 1, 2]),
      locker: boxIn('section', [1, 0.5, 0], [2, 1, 0.5]),
    });
    expect(layout.compartmentAt([0.5, 0, 1])).toBe('saloon');
    expect(layout.compartmentAt([1.5, 0.7, 0.2])).toBe('locker');
    expect(layout.compartmentAt([5, 0, 0])).toBeNull();
    // derived: the locker is 0.5 m deep in its shallowest directions inside the saloon's corner.
    expect(layout.overlaps).toHaveLength(1);
    expect(layout.overlaps[0]?.between).toEqual(['locker', 'saloon']);
    expect(layout.overlaps[0]?.depthM).toBeCloseTo(0.5, 9);
    expect(layout.overlaps[0]?.at[0]).toBeCloseTo(1.5, 9);
  });

  it('has no wall where a panel is open and one plate in the middle where it is not', () => {
    const boat = { a: boxIn('plan', [0, 0, 0], [1, 1, 1]), b: boxIn('plan', [1.02, 0, 0], [2, 1, 1]) };
    const area = (layout: ReturnType<typeof layoutOf>) => layout.walls.reduce((s, w) => s + areaInSpace(w.polygon), 0);
    const closed = layoutOf(boat);
    const open = layoutOf(boat, { panels: { p: panelData(['a', 'b'], [1, 0.5, 0.5], { rule: 'open' }) } });
    // derived: cube 6 m2 and block 2 + 4 x 0.98 m2; the shared face of 1 m2 counts once when closed, never when open.
    expect(area(closed)).toBeCloseTo(6 + 2 + 3.92 - 1, 9);
    expect(area(open)).toBeCloseTo(6 + 2 + 3.92 - 2, 9);
    expect(closed.walls.filter((w) => w.panelId === 'a|b').map((w) => w.cells)).toEqual([[0, 1]]);
  });

  it('takes a crossing outline by its hull and leaves out what has no volume, and says so', () => {
    const bow: [number, number][] = [
      [0, 0],
      [1, 1],
      [1, 0],
      [0, 1],
    ];
    const layout = layoutOf({
      bow: compartment('plan', bow, [0, 1]),
      flat: boxIn('plan', [3, 0, 0], [4, 1, 0]),
    });
    expect(layout.flaws).toEqual([
      { compartment: 'bow', reason: 'crossesItself' },
      { compartment: 'flat', reason: 'noVolume' },
    ]);
    expect(layout.compartmentAt([0.5, 0.1, 0.5])).toBe('bow');
    expect(layout.prismOf('flat').rings).toEqual([[], []]);
  });
});
