import { joinedAt, reachedAt, sillHeight, spreadOf, type Waterway, waterways } from '@core/assess/flooding/waterways';
import { boatSchema } from '@core/boat/schema/boat';
import { deriveLayout } from '@core/shape/layout/derive';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../support/random';

const SEA = { up: [0, 0, 1], levelM: 0 } as const;
const corner = (id: string, between: readonly [string, string], z: number): Waterway => ({
  id,
  kind: 'opening',
  between,
  rim: { type: 'corners', points: [[0, 0, z]] },
});

describe('lower edges', () => {
  const heights = (opening: object, up: readonly [number, number, number] = [0, 0, 1]): number[] => {
    const box = (x: number) => ({
      name: 'Room',
      view: 'plan',
      outline: [
        [x, 0],
        [x + 0.99, 0],
        [x + 0.99, 1],
        [x, 1],
      ],
      rangeM: [-1, 1],
    });
    const boat = boatSchema.parse({
      format: 'underberth-boat',
      schemaVersion: 1,
      name: 'Two rooms',
      compartments: { a: box(0), b: box(1) },
      openings: {
        door: {
          name: 'Door',
          compartment: 'a',
          to: 'b',
          at: [0.995, 0.5, 0.2],
          normal: [1, 0, 0],
          widthM: 0.4,
          heightM: 0.6,
          ...opening,
        },
      },
    });
    const { compartments, panels, newHoleCostM } = boat;
    const layout = deriveLayout({ compartments, panels, newHoles: {}, newHoleCostM });
    return waterways({ layout, openings: boat.openings, limberHoles: {}, drilled: [] }).map((way) =>
      sillHeight(way, { up, levelM: 0 }),
    );
  };

  it('of a door 600 mm high about z = 200 mm lies at -100 mm, of a round one too (derived)', () => {
    expect(heights({})).toEqual([expect.closeTo(-0.1, 9)]);
    expect(heights({ shape: 'round' })).toEqual([expect.closeTo(-0.1, 9)]);
  });

  it('heeled 30 degrees to port: the lower port corner at y 700 mm, z -100 mm', () => {
    const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
    // port goes down: the vertical leans to starboard in the boat's own frame, and heights fall towards port
    expect(heights({}, [0, -s, c])[0]).toBeCloseTo(-0.1 * c - 0.7 * s, 9);
    expect(heights({ shape: 'round' }, [0, -s, c])[0]).toBeCloseTo(0.2 * c - 0.5 * s - Math.hypot(0.3 * c, 0.2 * s), 9);
  });

  it('of a lid that lies flat is its plane, and what shuts tight has none', () => {
    expect(heights({ normal: [0, 0, 1] })).toEqual([expect.closeTo(0.2, 9)]);
    expect(heights({ watertight: true })).toEqual([]);
  });
});

describe('how water spreads', () => {
  it('as it rises it reaches the same compartments whether every way is walked or only those that count', () => {
    const next = randomFrom(7);
    const names = 'abcdefghij'.split('');
    const pick = () => names[Math.floor(next() * names.length)] as string;
    let joined = 0;
    for (let round = 0; round < 60; round += 1) {
      const ways = Array.from({ length: 12 }, (_, k) => corner(`w${k}`, [pick(), pick()], next() * 2 - 1));
      const spread = spreadOf(ways, SEA);
      for (const aboveM of [0, 0.2, 0.5, 1.1]) {
        const walked = reachedAt('a', ways, { up: [0, 0, 1], levelM: aboveM }).map(({ compartment }) => compartment);
        expect(joinedAt('a', spread, aboveM)).toEqual([...walked].sort());
        joined += walked.length;
      }
    }
    expect(joined).toBeGreaterThan(600);
  });

  it('stays as it is while an edge moves below the level', () => {
    const at = (z: number) => spreadOf([corner('one', ['a', 'b'], z), corner('two', ['b', 'c'], 0.3)], SEA);
    expect(at(-0.1)).toEqual(at(-0.4));
    expect(at(-0.1)).not.toEqual(at(0.1));
  });
});
