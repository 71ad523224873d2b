import { ringContains } from '@core/base/ring';
import type { Vec3 } from '@core/base/vec';
import type { Compartment, Hull } from '@core/boat/schema/boat';
import { compartmentInCut, hullCut } from '@core/output/views/cuts';
import { depthAxis, FRAMES, project } from '@core/output/views/drawing';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import { compartmentVolume } from '@core/shape/layout/room';
import { undrawnSpace } from '@core/shape/layout/undrawn';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf } from '../core/shape/layout/boats';
import { dice, micro, micro3 } from '../support/dice';
import { canoe, wigley, wineglass } from '../support/hull-shapes';
import { anyPrism, apart, compared, comparedInset, judgedHulls } from './volumes';

/** Relative and absolute: two parts in a thousand and a twentieth of a litre. */
const allowed = (wantM3: number): number => 0.002 * wantM3 + 5e-5;

const LINED = { shellM: 0.015, liningM: 0.03 };
const HULLS: readonly (readonly [string, Hull])[] = [
  ['wineglass with a keel trunk', wineglass()],
  ['canoe body', canoe()],
  ['lined wineglass', { ...wineglass(), ...LINED }],
];

// Derived by another way: manifold-3d, a general library for boolean operations on meshes, on the same interpolant with sixteen
// times as many facets. All 200 prisms are in volumes.deep.ts; these are every fifth of them.
describe('prisms clipped by a hull, against a library of solids', () => {
  const hulls = judgedHulls();
  it('have the same volume, drawn in any view and turned', () => {
    const rows = compared(
      hulls,
      Array.from({ length: 40 }, (_, k) => 5 * k + 1),
    );
    expect(rows.filter(({ wantM3 }) => wantM3 > 1e-3).length).toBeGreaterThan(25);
    for (const { what, gotM3, wantM3 } of rows)
      expect(Math.abs(gotM3 - wantM3), `${what}: got ${gotM3}, want ${wantM3}`).toBeLessThan(allowed(wantM3));
  });

  // The layer that shell and lining take is counted in points of a jittered grid, by their distance from the skin.
  it('lose shell and lining as points near the skin do', () => {
    for (const { what, gotM3, wantM3 } of comparedInset(hulls, LINED, [501, 503, 505], 56))
      expect(Math.abs(gotM3 - wantM3), `${what}: got ${gotM3}, want ${wantM3}`).toBeLessThan(allowed(wantM3));
  });
});

describe('twins to port and starboard', () => {
  it.each(HULLS)('have the same volume in a %s', (_name, hull) => {
    const surface = hullSurface(hull);
    const throws = dice(31);
    let withRoom = 0;
    for (let k = 0; k < 40; k++) {
      const port = anyPrism(surface, throws);
      const volumes = [port, mirrored(port)].map((c) => compartmentVolume(layoutOf({ c }), surface, 'c').volumeM3) as [
        number,
        number,
      ];
      expect(Math.abs(volumes[0] - volumes[1])).toBeLessThanOrEqual(1e-9 * Math.max(1e-3, volumes[0]));
      if (volumes[0] > 1e-3) withRoom++;
    }
    expect(withRoom).toBeGreaterThan(20);
  });
});

function mirrored(c: Compartment): Compartment {
  const [from, to] = c.rangeM;
  const [i] = c.view === 'plan' ? [1] : c.view === 'section' ? [0] : [null];
  return {
    ...c,
    outline: c.outline.map(([a, b]): [number, number] => (i === 1 ? [a, -b] : i === 0 ? [-a, b] : [a, b])),
    rangeM: i === null ? [-to, -from] : [from, to],
    yawDeg: -c.yawDeg,
  };
}

describe('compartments that share no space, and what is undrawn', () => {
  it.each(HULLS)('make up the interior of a %s', (_name, hull) => {
    const surface = hullSurface(hull);
    for (let seed = 1; seed <= 2; seed++) {
      const throws = dice(seed);
      // One box about the hull below its sheer, cut again and again; some of the pieces are compartments.
      let boxes: (readonly [Vec3, Vec3])[] = [
        [
          [surface.aftM - 0.1, -2, -2],
          [surface.forwardM + 0.1, 2, 0.6],
        ],
      ];
      for (let k = 0; k < 14; k++)
        boxes = boxes.flatMap((box, n) =>
          n === k % boxes.length ? halves(box, throws.whole(3), throws.next()) : [box],
        );
      const compartments = Object.fromEntries(
        boxes
          .filter((_, k) => k % 3 !== 0)
          .map(([low, high], k) => [
            `c${k}`,
            boxIn(throws.pick(['plan', 'profile', 'section'] as const), micro3(low), micro3(high)),
          ]),
      );
      const layout = layoutOf(compartments);
      expect(layout.overlaps).toEqual([]);
      const drawn = Object.keys(compartments).reduce(
        (sum, id) => sum + compartmentVolume(layout, surface, id).volumeM3,
        0,
      );
      const { interiorM3, volumeM3 } = undrawnSpace(layout, surface);
      expect(drawn).toBeGreaterThan(0.1 * interiorM3);
      expect(Math.abs(drawn + volumeM3 - interiorM3) / interiorM3).toBeLessThan(1e-6);
    }
  });

  it.each(HULLS.slice(0, 2))('are the whole of a bare %s, to its sheer', (_name, hull) => {
    const surface = hullSurface(hull);
    const { interiorM3, volumeM3 } = undrawnSpace(layoutOf({}), surface);
    const sunk = hydrostatics(surface, { up: [0, 0, 1], levelM: 50 });
    expect(volumeM3).toBe(interiorM3);
    expect(Math.abs(interiorM3 / sunk.volumeM3 - 1)).toBeLessThan(1e-6);
  });
});

function halves([low, high]: readonly [Vec3, Vec3], axis: number, share: number): (readonly [Vec3, Vec3])[] {
  const at = micro((low[axis] as number) + ((high[axis] as number) - (low[axis] as number)) * (0.2 + 0.6 * share));
  const cut = (p: Vec3): Vec3 => [axis === 0 ? at : p[0], axis === 1 ? at : p[1], axis === 2 ? at : p[2]];
  return [
    [low, cut(high)],
    [cut(low), high],
  ];
}

/** Nearer than this to the skin or to a face a point may be on either side: faces are drawn to a fifth of a millimetre. */
const ON_A_LINE_M = 5e-4;

describe('what the drawing holds', () => {
  it.each([...HULLS, ['Wigley with upright sides', wigley(9, 3, 0.6, 21, 15, 0.8)] as const])(
    'is what the layout says of 2,500 points in a %s',
    (_name, hull) => {
      const surface = hullSurface(hull);
      const throws = dice(9);
      const compartments = apart(surface, throws, 9);
      const layout = layoutOf(compartments);
      const ids = Object.keys(compartments);
      let inside = 0;
      let told = 0;
      for (let n = 0; n < 50; n++) {
        const frame = FRAMES[throws.pick(['plan', 'profile', 'section'] as const)];
        const axis = depthAxis(frame);
        const p: [number, number, number] = [0, 0, 0];
        const anywhere = (): [number, number, number] => [
          throws.from(surface.aftM, surface.forwardM),
          throws.from(-1.3, 1.3),
          throws.from(-1, 1),
        ];
        const at = micro(anywhere()[axis]);
        const cut = { frame, at };
        const skin = hullCut(surface, cut);
        const drawn = ids.map((id) => compartmentInCut(layout, id, cut, skin));
        for (let k = 0; k < 50; k++) {
          anywhere().forEach((value, c) => {
            p[c] = c === axis ? at : value;
          });
          const freeM = surface.clearance(p, p, 1);
          if (Math.abs(freeM) < ON_A_LINE_M || isNearFace(layout.cells, p)) continue;
          told++;
          const holder = freeM > 0 ? layout.compartmentAt(p) : null;
          const uv = project(frame, p);
          const shown = ids.filter((_, i) => drawn[i]?.filter((ring) => ringContains(ring, uv)).length === 1);
          expect(shown, `${frame.name} at ${at}, point ${p}, ${freeM} m free`).toEqual(holder === null ? [] : [holder]);
          if (holder !== null) inside++;
        }
      }
      expect(told).toBeGreaterThan(2300);
      expect(inside).toBeGreaterThan(50);
    },
  );
});

const isNearFace = (cells: ReturnType<typeof layoutOf>['cells'], p: Vec3): boolean =>
  cells.some(({ planes }) =>
    planes.some(
      ({ normal, offset }) => Math.abs(normal[0] * p[0] + normal[1] * p[1] + normal[2] * p[2] - offset) < ON_A_LINE_M,
    ),
  );
