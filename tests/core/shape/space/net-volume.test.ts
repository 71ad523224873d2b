import { checkBoat } from '@core/boat/read';
import type { Boat, Hull } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';
import { netVolume } from '@core/shape/space/net-volume';
import { describe, expect, it } from 'vitest';
import { box } from '../../../support/hull-shapes';
import { boxIn, layoutOf } from '../layout/boats';

/** Box 8 x 3 m, bottom at z = -0.5, with a compartment over its bottom from x = 2 to 4 up to z = 0.3. */
function volumes(hull: Partial<Hull>, compartment: object = {}, fixtures: object = {}) {
  const result = checkBoat({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'x',
    hull: { ...box(8, 3, 0.5), ...hull },
    compartments: { a: { ...boxIn('plan', [2, -1.8, -0.6], [4, 1.8, 0.3]), ...compartment } },
    fixtures,
  });
  if (!result.ok) throw new Error(result.problems[0]?.message ?? '');
  const boat: Boat = result.boat;
  const surface = boat.hull ? hullSurface(boat.hull) : null;
  return netVolume(boat, layoutOf(boat.compartments), surface, 'a');
}

const fixture = (shape: object, at: readonly number[], more: object = {}) => ({
  name: 'f',
  kind: 'other',
  shape,
  pose: { at, ...(more as { pose?: object }).pose },
  ...more,
});

describe('what is left of a compartment', () => {
  // Derived: gross 2 x 3.6 x 0.9; in the skin 2 x 3 x 0.8; less 10 mm of shell and 30 mm of lining at both sides and the bottom.
  it('goes from the prism to the room, step by step', () => {
    const got = volumes({ shellM: 0.01, liningM: 0.03 });
    const want = {
      grossM3: 2 * 3.6 * 0.9,
      outsideM3: 2 * (3.6 * 0.9 - 3 * 0.8),
      shellM3: 2 * (3 * 0.8 - 2.98 * 0.79),
      liningM3: 2 * (2.98 * 0.79 - 2.92 * 0.76),
      ribsM3: 0,
      fixturesM3: 0,
      netM3: 2 * 2.92 * 0.76,
    };
    for (const [key, value] of Object.entries(want)) expect(got[key as keyof typeof want], key).toBeCloseTo(value, 6);
  });

  it('counts the lining of the compartment before that of the hull', () => {
    const got = volumes({ shellM: 0.01, liningM: 0.03 }, { liningM: 0.05 });
    expect(got.netM3).toBeCloseTo(2 * 2.88 * 0.74, 6);
  });

  // Derived: ribs 60 mm deep, of which 20 mm stand beyond the lining; 50 mm wide every 400 mm: an eighth of that layer.
  it('takes off ribs as far as they stand into the room', () => {
    const ribs = { spacingM: 0.4, depthM: 0.06, widthM: 0.05 };
    const layer = 2 * (2.9 * 0.75 - 2.86 * 0.73);
    expect(volumes({ shellM: 0.01, liningM: 0.04, ribs }).ribsM3).toBeCloseTo(layer / 8, 6);
    expect(volumes({ shellM: 0.01, liningM: 0.06, ribs }).ribsM3).toBe(0);
    // As wide as deep where nobody says how wide; the compartment's own ribs come first.
    const own = volumes({ shellM: 0.01, liningM: 0.04 }, { ribs: { spacingM: 0.3, depthM: 0.06 } });
    expect(own.ribsM3).toBeCloseTo((layer * 0.06) / 0.3, 6);
  });

  it('takes off fixtures, each litre once and only what is in the room', () => {
    const cube = { type: 'box', sizeM: [0.4, 0.4, 0.4] };
    const fixtures = {
      // Half of it stands out through the forward end.
      a: fixture(cube, [4, 0, -0.2]),
      // Two that share half of their room.
      b: fixture(cube, [3, 0.6, -0.2]),
      c: fixture(cube, [3, 0.8, -0.2]),
      // Turned, a cylinder keeps its volume.
      d: fixture({ type: 'cylinder', diameterM: 0.3, lengthM: 0.5, axis: 'x' }, [2.6, -0.7, -0.2], {
        pose: { at: [2.6, -0.7, -0.2], yawDeg: 30, pitchDeg: 20 },
      }),
      // Runs may pass it: no solid.
      e: fixture(cube, [2.5, 0.3, -0.2], { soft: true }),
    };
    const got = volumes({ shellM: 0.01, liningM: 0.03 }, {}, fixtures);
    expect(got.fixturesM3).toBeCloseTo(0.032 + 0.096 + (Math.PI * 0.09 * 0.5) / 4, 4);
    expect(got.netM3).toBeCloseTo(2 * 2.92 * 0.76 - got.fixturesM3, 6);
  });

  it('without a hull is the prism less its fixtures', () => {
    const compartments = { a: boxIn('plan', [0, 0, 0], [1, 1, 1]) };
    const got = netVolume({ compartments, fixtures: {} }, layoutOf(compartments), null, 'a');
    expect(got).toMatchObject({
      grossM3: expect.closeTo(1, 9),
      outsideM3: 0,
      liningM3: 0,
      netM3: expect.closeTo(1, 9),
    });
  });
});
