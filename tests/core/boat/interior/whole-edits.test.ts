import { cosSin } from '@core/base/vec';
import { facesOf } from '@core/boat/interior/faces';
import { compartmentsMerged, mergedShape } from '@core/boat/interior/merging';
import { compartmentCopiedAcross, compartmentMirrored } from '@core/boat/interior/mirroring';
import { compartmentDeleted, compartmentDuplicated } from '@core/boat/interior/removing';
import { compartmentShifted } from '@core/boat/interior/shaping';
import { compartmentSplit, partsOf } from '@core/boat/interior/splitting';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../support/dice';
import { box, compartmentOf, done, drawnBoat, outlineAt, volumeOf } from './shapes';

const VIEWS = ['plan', 'profile', 'section'] as const;

/** A random compartment and a plane through it that runs along its range. */
function randomCut(seed: number) {
  const luck = dice(seed);
  const view = luck.pick(VIEWS);
  const boat = drawnBoat({
    compartments: {
      a: {
        name: 'A',
        view,
        outline: outlineAt(luck, [luck.from(1, 5), luck.from(-1, 1)]),
        rangeM: [luck.from(-0.5, 0), luck.from(0.2, 0.9)],
        // Turned ones in plan too: a turn about the vertical leaves the cut along the range.
        yawDeg: view === 'plan' ? luck.pick([0, 0, 17, 90, -35]) : 0,
      },
    },
  });
  const own = compartmentOf(boat, 'a');
  const [cos, sin] = cosSin(luck.from(0, 360));
  const normal =
    view === 'plan'
      ? ([cos, sin, 0] as const)
      : view === 'profile'
        ? ([cos, 0, sin] as const)
        : ([0, cos, sin] as const);
  const faces = facesOf(own);
  const side = luck.pick(faces);
  const cap = faces.find((face) => face.key === 'low');
  // A point between the middle of a side and that of the whole: near enough to be inside of most outlines.
  const middle = cap?.centre ?? [0, 0, 0];
  const at = [0, 1, 2].map((k) => ((side.centre[k] ?? 0) + 3 * (middle[k] ?? 0)) / 4) as [number, number, number];
  return { boat, own, cutting: { at, normal } };
}

describe('splitting', () => {
  it('leaves the whole volume to the two parts, and merging them gives the outline back', () => {
    let tried = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const { boat, own, cutting } = randomCut(seed);
      if (!partsOf(own, cutting).ok) continue;
      tried++;
      const split = done(boat, compartmentSplit('a', cutting, 'b', 'B'));
      const [a, b] = [compartmentOf(split, 'a'), compartmentOf(split, 'b')];
      // derived: each of up to 11 corners is rounded to the micrometre, a side is at most 1.6 m long
      expect(Math.abs(volumeOf(a) + volumeOf(b) - volumeOf(own))).toBeLessThan(2e-5);
      const merged = done(split, compartmentsMerged('a', 'b'));
      const again = compartmentOf(merged, 'a');
      expect(merged.compartments.b).toBeUndefined();
      expect(again.rangeM).toEqual(own.rangeM);
      const corners = [...own.outline];
      expect([seed, again.outline.length]).toEqual([seed, corners.length]);
      for (const corner of corners) {
        const nearest = Math.min(...again.outline.map((p) => Math.hypot(p[0] - corner[0], p[1] - corner[1])));
        // derived: a turned part is drawn about its own middle, rounded to the micrometre there and back
        expect(nearest).toBeLessThan(8e-6);
      }
    }
    expect(tried).toBeGreaterThan(200);
  });

  it('cuts a box in any view, across its range too, and gives each part its side', () => {
    const boat = drawnBoat({ compartments: { a: box('A', [0, 2], [-1, 1], [0, 0.6]) } });
    const split = done(boat, compartmentSplit('a', { at: [0, 0, 0.2], normal: [0, 0, 1] }, 'b', 'Above'));
    expect(compartmentOf(split, 'a').rangeM).toEqual([0, 0.2]);
    expect(compartmentOf(split, 'b').rangeM).toEqual([0.2, 0.6]);
    const slanted = partsOf(compartmentOf(boat, 'a'), { at: [1, 0, 0.3], normal: [Math.SQRT1_2, 0, Math.SQRT1_2] });
    expect(slanted.ok && slanted.ahead.view).toBe('profile');
    // derived: the plane goes through the middle of a box, so it halves it: 2 x 2 x 0.6 / 2
    expect(slanted.ok && volumeOf(slanted.ahead)).toBeCloseTo(1.2, 9);
  });

  it('refuses a plane that misses, and one askew to a shape that is no box', () => {
    const boat = drawnBoat({
      compartments: {
        a: {
          name: 'A',
          view: 'plan',
          outline: [
            [0, 0],
            [1, 0],
            [0, 1],
          ],
          rangeM: [0, 0.5],
        },
      },
    });
    const own = compartmentOf(boat, 'a');
    expect(partsOf(own, { at: [5, 0, 0], normal: [1, 0, 0] })).toEqual({
      ok: false,
      why: expect.stringMatching(/side to side/),
    });
    expect(partsOf(own, { at: [0.2, 0.2, 0.2], normal: [0.6, 0, 0.8] }).ok).toBe(false);
  });

  it('shares out what lies on either side, the holes of a long bulkhead included', () => {
    const boat = drawnBoat({
      compartments: { a: box('A', [0, 2], [0, 1], [0, 0.6]), wall: box('Wall', [0, 2], [1, 2], [0, 0.6]) },
      panels: {
        long: {
          between: ['a', 'wall'],
          near: [0.5, 1, 0.3],
          rule: 'noDrill',
          thicknessM: 0.018,
          material: 'ply',
          holes: {
            aft: { at: [0.4, 1, 0.3], diameterM: 0.03 },
            fore: { at: [1.6, 1, 0.3], diameterM: 0.05 },
          },
        },
      },
      openings: {
        lid: { name: 'Lid', compartment: 'a', at: [1.5, 0.5, 0.6], normal: [0, 0, 1], widthM: 0.4, heightM: 0.4 },
      },
    });
    const split = done(boat, compartmentSplit('a', { at: [1, 0, 0], normal: [1, 0, 0] }, 'b', 'B'));
    expect(split.openings.lid?.compartment).toBe('b');
    expect(split.panels.long?.between).toEqual(['a', 'wall']);
    expect(Object.keys(split.panels.long?.holes ?? {})).toEqual(['aft']);
    const twin = split.panels['b-wall'];
    expect(twin).toMatchObject({ between: ['b', 'wall'], rule: 'noDrill', thicknessM: 0.018, material: 'ply' });
    expect(Object.keys(twin?.holes ?? {})).toEqual(['fore']);
  });
});

describe('merging', () => {
  const boat = drawnBoat({
    compartments: {
      a: box('A', [0, 1], [0, 1], [0, 0.6]),
      b: box('B', [1.02, 2], [0, 1], [0, 0.6]),
      low: box('Low', [0, 0.8], [1, 2], [0, 0.4]),
      far: box('Far', [5, 6], [0, 1], [0, 0.6]),
    },
    panels: { 'a-b': { between: ['a', 'b'], near: [1.01, 0.5, 0.3], rule: 'open', material: 'ply' } },
  });
  it('takes the thickness of the bulkhead in, and sets its record aside', () => {
    const merged = done(boat, compartmentsMerged('a', 'b'));
    // derived: 2 m long, 1 m wide, 0.6 m high
    expect(volumeOf(compartmentOf(merged, 'a'))).toBeCloseTo(1.2, 9);
    expect(merged.panels['a-b']).toMatchObject({ setAside: true, rule: 'open', material: 'ply' });
  });
  it('says why two do not merge', () => {
    const of = (id: string) => compartmentOf(boat, id);
    expect(mergedShape(of('a'), of('far'))).toEqual({ ok: false, why: 'The two have no face in common' });
    expect(mergedShape(of('a'), of('low')).ok).toBe(false);
    expect(mergedShape(of('a'), { ...of('b'), yawDeg: 5 })).toEqual({
      ok: false,
      why: 'The two are turned differently',
    });
  });
});

describe('mirroring', () => {
  it('twice gives the boat back, with openings, surfaces and the data of panels', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const luck = dice(seed);
      const view = luck.pick(VIEWS);
      const outline = outlineAt(luck, [2, luck.from(-1, 1)]);
      const plain = drawnBoat({
        compartments: { a: { name: 'A', view, outline, rangeM: [0.1, 0.7], yawDeg: luck.pick([0, 30]) } },
      });
      const face = luck.pick(facesOf(compartmentOf(plain, 'a')));
      const boat = drawnBoat({
        ...JSON.parse(JSON.stringify(plain)),
        openings: {
          door: {
            name: 'Door',
            compartment: 'a',
            at: face.centre,
            normal: face.normal,
            widthM: 0.2,
            heightM: 0.2,
            how: 'hinged',
            swing: { hingeAlong: 'left', angleDeg: 90 },
          },
        },
        mountingSurfaces: {
          board: {
            compartment: 'a',
            at: face.centre,
            normal: face.normal,
            widthM: 0.1,
            heightM: 0.1,
            material: 'ply',
            thicknessM: 0.01,
          },
        },
        panels: {
          side: {
            between: ['a', 'undrawn'],
            near: face.centre,
            thicknessM: 0.02,
            holes: { h: { at: face.centre, diameterM: 0.02 } },
          },
        },
      });
      const once = done(boat, compartmentMirrored('a'));
      expect(once.openings.door?.at[1]).toBeCloseTo(-(boat.openings.door?.at[1] ?? 0), 6);
      expect(once.openings.door?.swing?.hingeAlong).toBe('right');
      expect(done(once, compartmentMirrored('a'))).toEqual(boat);
    }
  });

  it('copies across with the panel to the twin of the neighbour, and to what reaches across itself', () => {
    const boat = drawnBoat({
      compartments: {
        port: box('Port', [0, 1], [0.5, 1], [0, 0.6]),
        middle: box('Middle', [0, 1], [-0.5, 0.5], [0, 0.6]),
        next: box('Next', [1, 2], [0.5, 1], [0, 0.6]),
        nextStarboard: box('Next, starboard', [1, 2], [-1, -0.5], [0, 0.6]),
      },
      panels: {
        side: { between: ['port', 'middle'], near: [0.5, 0.5, 0.3], thicknessM: 0.009 },
        end: { between: ['next', 'port'], near: [1, 0.7, 0.3], rule: 'noDrill' },
      },
    });
    const copied = done(boat, compartmentCopiedAcross('port', 'starboard', 'Starboard'));
    expect(compartmentOf(copied, 'starboard').outline.map((p) => p[1])).toEqual([-0.5, -0.5, -1, -1]);
    expect(copied.panels['side-across']).toMatchObject({
      between: ['starboard', 'middle'],
      near: [0.5, -0.5, 0.3],
      thicknessM: 0.009,
    });
    expect(copied.panels['end-across']?.between).toEqual(['nextStarboard', 'starboard']);
    expect(copied.panels.side).toEqual(boat.panels.side);
  });
});

describe('deleting', () => {
  it('leaves the data of the panels, set aside, even of the last compartment; a door stays with the neighbour', () => {
    const boat = drawnBoat({
      compartments: { a: box('A', [0, 1], [0, 1], [0, 0.6]), b: box('B', [1, 2], [0, 1], [0, 0.6]) },
      panels: { 'a-b': { between: ['a', 'b'], near: [1, 0.5, 0.3], rule: 'open' } },
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
        lid: { name: 'Lid', compartment: 'a', at: [0.5, 0.5, 0.6], normal: [0, 0, 1], widthM: 0.4, heightM: 0.4 },
      },
    });
    const without = done(boat, compartmentDeleted('a'));
    expect(without.panels['a-b']).toMatchObject({ rule: 'open', setAside: true });
    expect(without.openings.lid).toBeUndefined();
    expect(without.openings.door).toMatchObject({ compartment: 'b', to: 'undrawn', normal: [-1, 0, 0] });
    const none = done(without, compartmentDeleted('b'));
    expect(none.panels['a-b']).toMatchObject({ rule: 'open', setAside: true });
  });
});

describe('pillows of a berth', () => {
  const berth = drawnBoat({
    compartments: {
      a: {
        ...box('A', [0, 2], [0.1, 1], [0, 1]),
        berth: true,
        pillows: [
          [0.3, 0.5, 0.4],
          [1.8, 0.5, 0.4],
        ],
      },
    },
  });
  const pillowsOf = (boat: typeof berth, id: string) => compartmentOf(boat, id).pillows;

  it('go with it, to the other side and into its copies', () => {
    expect(pillowsOf(done(berth, compartmentShifted('a', [0.1, 0, 0])), 'a')?.[0]).toEqual([0.4, 0.5, 0.4]);
    expect(pillowsOf(done(berth, compartmentMirrored('a')), 'a')).toEqual([
      [0.3, -0.5, 0.4],
      [1.8, -0.5, 0.4],
    ]);
    expect(pillowsOf(done(berth, compartmentCopiedAcross('a', 'b', 'B')), 'b')?.[0]).toEqual([0.3, -0.5, 0.4]);
    expect(pillowsOf(done(berth, compartmentDuplicated('a', 'b', 'B', [0, 0, 1])), 'b')?.[0]).toEqual([0.3, 0.5, 1.4]);
    expect(pillowsOf(done(berth, compartmentDuplicated('a', 'b', 'B', [0, 0, 1])), 'a')?.[0]).toEqual([0.3, 0.5, 0.4]);
  });

  it('stay on their side of a cut, and come together again', () => {
    const split = done(berth, compartmentSplit('a', { at: [1, 0.5, 0.5], normal: [1, 0, 0] }, 'b', 'B'));
    expect(pillowsOf(split, 'a')).toEqual([[0.3, 0.5, 0.4]]);
    expect(pillowsOf(split, 'b')).toEqual([[1.8, 0.5, 0.4]]);
    expect(pillowsOf(done(split, compartmentsMerged('a', 'b')), 'a')).toHaveLength(2);
  });
});
