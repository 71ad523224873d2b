import { edit } from '@core/boat/edits';
import { faceOfKey, facesAgainst, facesOf } from '@core/boat/interior/faces';
import { gapClosed, gapsBetween, overlapCut, survives } from '@core/boat/interior/remedies';
import {
  compartmentShifted,
  compartmentTurned,
  cornerAdded,
  cornerMoved,
  cornerRemoved,
  facesMoved,
} from '@core/boat/interior/shaping';
import { deriveLayout } from '@core/shape/layout/derive';
import { prismOf } from '@core/shape/layout/prism';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../support/dice';
import { box, compartmentOf, done, drawnBoat, outlineAt, volumeOf } from './shapes';

const layoutOf = (boat: ReturnType<typeof drawnBoat>) =>
  deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: 0.5 });

describe('faces of a compartment', () => {
  it('are those of its prism: same planes, whatever the view, the turn and the sense of the outline', () => {
    for (let seed = 1; seed <= 120; seed++) {
      const luck = dice(seed);
      const outline = outlineAt(luck, [luck.from(-1, 3), luck.from(-1, 1)]);
      if (luck.whole(2) === 1) outline.reverse();
      const boat = drawnBoat({
        compartments: {
          a: {
            name: 'A',
            view: luck.pick(['plan', 'profile', 'section']),
            outline,
            rangeM: [-0.2, 0.4],
            yawDeg: luck.pick([0, 33, 180]),
          },
        },
      });
      const own = compartmentOf(boat, 'a');
      const derived = prismOf('a', own);
      const planes = (derived?.faces ?? []).map(({ plane }) => [...plane.normal, plane.offset]);
      for (const face of facesOf(own)) {
        // In profile the prism counts its range towards starboard: its low end is the greater y. Compare by plane.
        const best = Math.min(
          ...planes.map((plane) =>
            Math.max(...[...face.normal, face.offset].map((v, k) => Math.abs(v - (plane[k] ?? 9)))),
          ),
        );
        expect([seed, face.key, best < 1e-9]).toEqual([seed, face.key, true]);
      }
    }
  });
});

describe('moving faces', () => {
  it('moves that face alone, by that much, of a turned compartment too', () => {
    for (let seed = 1; seed <= 150; seed++) {
      const luck = dice(seed);
      const boat = drawnBoat({
        compartments: {
          a: {
            name: 'A',
            view: luck.pick(['plan', 'profile', 'section']),
            outline: outlineAt(luck, [2, 0]),
            rangeM: [-0.3, 0.5],
            yawDeg: luck.pick([0, 0, 25, -90]),
          },
        },
      });
      const own = compartmentOf(boat, 'a');
      const face = luck.pick(facesOf(own));
      const by = luck.from(-0.02, 0.05);
      if (!survives(own, { id: 'a', key: face.key, by })) continue;
      const moved = compartmentOf(done(boat, facesMoved([{ id: 'a', key: face.key, by }])), 'a');
      for (const before of facesOf(own)) {
        const after = faceOfKey(moved, before.key);
        if (!after) throw new Error('expected the same faces');
        const isIt = before.key === face.key;
        // A side that runs on nearly straight is moved square, so its neighbours tilt; all others keep their planes.
        const alike = after.normal.every((v, k) => Math.abs(v - (before.normal[k] ?? 0)) < 1e-4);
        if (!alike) continue;
        // derived: corners are rounded to the micrometre, and a turned shape about a middle that is so too
        expect(after.offset - before.offset - (isIt ? by : 0)).toBeCloseTo(0, 4);
      }
    }
  });

  it('carries the panel record, its holes, an opening and a surface along, and both sides of a bulkhead', () => {
    const boat = drawnBoat({
      compartments: { a: box('A', [0, 1], [0, 1], [0, 0.6]), b: box('B', [1.02, 2], [0, 1], [0, 0.6]) },
      panels: {
        'a-b': {
          between: ['a', 'b'],
          near: [1.01, 0.5, 0.3],
          thicknessM: 0.02,
          holes: { h: { at: [1.01, 0.2, 0.3], diameterM: 0.03 } },
        },
      },
      openings: {
        door: {
          name: 'Door',
          compartment: 'a',
          to: 'b',
          at: [1, 0.5, 0.3],
          normal: [1, 0, 0],
          widthM: 0.4,
          heightM: 0.4,
        },
      },
      mountingSurfaces: {
        board: {
          compartment: 'b',
          at: [1.02, 0.8, 0.3],
          normal: [1, 0, 0],
          widthM: 0.2,
          heightM: 0.2,
          material: 'ply',
          thicknessM: 0.02,
        },
      },
    });
    const against = facesAgainst(boat.compartments, 'a', 'side1');
    expect(against).toEqual([{ id: 'b', key: 'side3', gapM: expect.closeTo(0.02, 9) }]);
    const moved = done(
      boat,
      facesMoved([
        { id: 'a', key: 'side1', by: 0.5 },
        { id: 'b', key: 'side3', by: -0.5 },
      ]),
    );
    expect(moved.panels['a-b']?.near).toEqual([1.51, 0.5, 0.3]);
    expect(moved.panels['a-b']?.holes.h?.at).toEqual([1.51, 0.2, 0.3]);
    expect(moved.openings.door?.at).toEqual([1.5, 0.5, 0.3]);
    expect(moved.mountingSurfaces.board?.at).toEqual([1.52, 0.8, 0.3]);
    expect(layoutOf(moved).orphans).toEqual([]);
    expect(Object.values(layoutOf(moved).panels)[0]?.dataId).toBe('a-b');
  });

  it('refuses a face that goes through the one across, and leaves the boat', () => {
    const boat = drawnBoat({ compartments: { a: box('A', [0, 1], [0, 1], [0, 0.6]) } });
    expect(edit(boat, facesMoved([{ id: 'a', key: 'high', by: -0.7 }])).ok).toBe(false);
    expect(survives(compartmentOf(boat, 'a'), { id: 'a', key: 'side1', by: -1.2 })).toBe(false);
  });
});

describe('corners', () => {
  const boat = drawnBoat({ compartments: { a: box('A', [0, 1], [0, 1], [0, 0.6]) } });
  it('are added, moved and taken out again', () => {
    const added = done(boat, cornerAdded('a', 1));
    expect(compartmentOf(added, 'a').outline[2]).toEqual([1, 0.5]);
    const moved = done(added, cornerMoved('a', 2, [1.2, 0.5, 0]));
    // derived: a triangle of base 1 and height 0.2 is added
    expect(volumeOf(compartmentOf(moved, 'a'))).toBeCloseTo((1 + 0.1) * 0.6, 9);
    expect(done(moved, cornerRemoved('a', 2))).toEqual(boat);
  });
  it('keep a triangle a triangle', () => {
    const three = done(boat, cornerRemoved('a', 0));
    expect(done(three, cornerRemoved('a', 0))).toEqual(three);
  });
});

describe('the whole', () => {
  it('is shifted and turned with what hangs on it, and back', () => {
    const boat = drawnBoat({
      compartments: { a: box('A', [0, 1], [0, 1], [0, 0.6]) },
      openings: {
        door: { name: 'Door', compartment: 'a', at: [1, 0.5, 0.3], normal: [1, 0, 0], widthM: 0.4, heightM: 0.4 },
      },
    });
    const shifted = done(boat, compartmentShifted('a', [0.1, -0.2, 0.05]));
    expect(shifted.openings.door?.at).toEqual([1.1, 0.3, 0.35]);
    const turned = done(boat, compartmentTurned('a', 90));
    // derived: a quarter turn to port about (0.5, 0.5) takes the forward end to port
    expect(turned.openings.door?.at).toEqual([0.5, 1, 0.3]);
    expect(turned.openings.door?.normal).toEqual([0, 1, 0]);
    expect(done(turned, compartmentTurned('a', 0))).toEqual(boat);
  });
});

describe('remedies', () => {
  it('close a gap from either side, and the panel is there', () => {
    const boat = drawnBoat({
      compartments: { a: box('A', [0, 1], [0, 1], [0, 0.6]), b: box('B', [1.1, 2], [0, 1], [0, 0.6]) },
    });
    const [gap] = gapsBetween(boat.compartments);
    if (!gap) throw new Error('expected a gap');
    expect(gap.gapM).toBeCloseTo(0.1, 9);
    for (const side of [0, 1] as const) {
      const closed = done(boat, facesMoved([gapClosed(gap, side)]));
      expect(gapsBetween(closed.compartments)).toEqual([]);
      expect(Object.keys(layoutOf(closed).panels)).toEqual(['a|b']);
    }
  });
  it('cut an overlap out of this or that one, by the least move', () => {
    const boat = drawnBoat({
      compartments: { a: box('A', [0, 1], [0, 1], [0, 0.6]), b: box('B', [0.9, 2], [0, 1], [0, 0.6]) },
    });
    expect(layoutOf(boat).overlaps).toHaveLength(1);
    for (const [id, other] of [
      ['a', 'b'],
      ['b', 'a'],
    ] as const) {
      const cut = overlapCut(boat.compartments, id, other);
      if (!cut) throw new Error('expected a cut');
      expect(cut.by).toBeCloseTo(-0.1, 9);
      expect(layoutOf(done(boat, facesMoved([cut]))).overlaps).toEqual([]);
    }
  });
});
