import { readFileSync } from 'node:fs';
import { ringContains, signedArea } from '@core/base/ring';
import { dot, type Vec2, type Vec3 } from '@core/base/vec';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { compartmentOutline } from '@core/output/views/compartments';
import { type Cut, compartmentInCut, hullCut, wallsInCut } from '@core/output/views/cuts';
import { lift, PLAN, PROFILE, SECTION } from '@core/output/views/drawing';
import { planLines, profileLines, waterTrace } from '@core/output/views/hull-lines';
import { intersectionOf, type Ring } from '@core/output/views/polygons';
import { hullSurface } from '@core/shape/hull/surface';
import { deriveLayout } from '@core/shape/layout/derive';

import { describe, expect, it } from 'vitest';

function sample(): Boat {
  const read = readBoat(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8'));
  if (!read.ok) throw new Error('the sample boat does not open');
  return read.boat;
}
const boat = sample();
const hull = hullSurface(boat.hull as NonNullable<Boat['hull']>);
const layoutOf = (compartments: Boat['compartments']) =>
  deriveLayout({ compartments, panels: {}, newHoles: {}, newHoleCostM: 0.5 });
const layout = layoutOf(boat.compartments);

/** The same compartments on the other side of the centreline. */
const mirrored: Boat['compartments'] = Object.fromEntries(
  Object.entries(boat.compartments).map(([id, c]) => {
    const flip = (p: readonly [number, number]): [number, number] =>
      c.view === 'plan' ? [p[0], -p[1]] : c.view === 'section' ? [-p[0], p[1]] : [p[0], p[1]];
    const rangeM: [number, number] = c.view === 'profile' ? [-c.rangeM[1], -c.rangeM[0]] : [c.rangeM[0], c.rangeM[1]];
    return [id, { ...c, outline: c.outline.map(flip), rangeM, yawDeg: -c.yawDeg }];
  }),
);

const total = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + signedArea(ring), 0);
/** Area that one drawing has and the other has not, m2. */
const apart = (a: readonly Ring[], b: readonly Ring[]) => total(a) + total(b) - 2 * total(intersectionOf(a, b));
const flipped = (rings: readonly Ring[]) => rings.map((ring) => ring.map(([u, v]): Vec2 => [u, -v]).reverse());

describe('lines of the hull', () => {
  it('are symmetric in plan to the last digit', () => {
    for (const p of planLines(hull)) {
      const points = p.kind === 'area' ? p.rings.flat() : p.points;
      const there = new Set(points.map(([x, y]) => `${x},${y + 0}`));
      for (const [x, y] of points) expect(there.has(`${x},${-y + 0}`)).toBe(true);
    }
  });

  it('run along keel and sheer of the surface in profile', () => {
    const outline = profileLines(hull).find((p) => p.id === 'hull/keel');
    expect(outline?.kind).toBe('stroke');
    if (outline?.kind !== 'stroke') return;
    for (const [x, z] of outline.points) {
      const off = Math.min(Math.abs(z - hull.keelAt(x)), Math.abs(z - hull.sheerAt(x)));
      expect(off).toBeLessThan(1e-9);
    }
  });

  it('trace a heeled water on both sides, on the skin and in the plane', () => {
    // derived: the plane itself is the check; the traces of a boat heeled the other way are the mirrored ones
    const plane = (deg: number) => {
      const up: Vec3 = [0, Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];
      return { up, levelM: 0.02 };
    };
    const right = waterTrace(hull, plane(20));
    const left = waterTrace(hull, plane(-20));
    expect(right.starboard.length).toBeGreaterThan(50);
    for (const p of [...right.port, ...right.starboard]) {
      expect(Math.abs(dot(p, plane(20).up) - 0.02)).toBeLessThan(1e-9);
      expect(Math.abs(Math.abs(p[1]) - hull.halfBreadthAt(p[0], p[2]))).toBeLessThan(2e-3);
    }
    // Starboard down: the water stands higher on that side of the hull.
    const mean = (points: readonly Vec3[]) => points.reduce((sum, p) => sum + p[2], 0) / points.length;
    expect(mean(right.starboard)).toBeGreaterThan(mean(right.port));
    expect(left.port.length).toBe(right.starboard.length);
    right.starboard.forEach((p, i) => {
      const q = left.port[i] as Vec3;
      expect(Math.hypot(p[0] - q[0], p[1] + q[1], p[2] - q[2])).toBeLessThan(1e-9);
    });
  });
});

describe('compartments on paper', () => {
  it('of a mirrored boat are the mirrored ones in plan and the same in profile', () => {
    const other = layoutOf(mirrored);
    for (const id of Object.keys(boat.compartments)) {
      const plan = compartmentOutline(layout, id, PLAN, hull);
      const planThere = compartmentOutline(other, id, PLAN, hull);
      // derived: the same shape turned over; the clip works to a micrometre
      expect(Math.abs(apart(flipped(planThere), plan))).toBeLessThan(1e-5);
      const here = compartmentOutline(layout, id, PROFILE, hull);
      expect(total(here)).toBeGreaterThan(0.001);
      expect(Math.abs(apart(compartmentOutline(other, id, PROFILE, hull), here))).toBeLessThan(1e-5);
    }
  });

  it('never reach beyond the hull in plan', () => {
    for (const id of Object.keys(boat.compartments))
      for (const ring of compartmentOutline(layout, id, PLAN, hull))
        for (const [x, y] of ring) {
          const widest = Math.max(
            ...hull.sectionAt(Math.min(Math.max(x, hull.aftM), hull.forwardM)).map(([b]) => Math.abs(b)),
          );
          // derived: chords of the clip stay inside a convex waterline, and within 2 mm of a hollow one
          expect(Math.abs(y)).toBeLessThan(widest + 2e-3);
        }
  });

  it('in a section lie within their outline in plan: the views agree', () => {
    for (const x of [2.5, 4.2, 5.4, 7.3, 8.6]) {
      const cut: Cut = { frame: SECTION, at: x };
      const skin = hullCut(hull, cut);
      for (const id of Object.keys(boat.compartments)) {
        const plan = compartmentOutline(layout, id, PLAN, hull);
        for (const ring of compartmentInCut(layout, id, cut, skin)) {
          // A little inwards of its edges every point of the section must be in the plan as well.
          const [cu, cv] = ring.reduce(([a, b], [u, v]): Vec2 => [a + u / ring.length, b + v / ring.length], [
            0, 0,
          ] as Vec2);
          for (const [u, v] of ring) {
            const inner: Vec2 = [u + (cu - u) * 0.02, v + (cv - v) * 0.02];
            if (!ringContains(ring, inner)) continue;
            const [, y] = lift(SECTION, inner, -x);
            expect(plan.some((outline) => ringContains(outline, [x, y]))).toBe(true);
          }
        }
      }
    }
  });
});

describe('cuts', () => {
  const cuts: Cut[] = [
    { frame: SECTION, at: 3.1 },
    { frame: SECTION, at: 6 },
    { frame: PLAN, at: 0.1 },
    { frame: PROFILE, at: 0.7 },
  ];

  it('draw the inner face where nothing is free any more', () => {
    for (const cut of cuts) {
      const { inner, outer } = hullCut(hull, cut);
      expect(outer).toHaveLength(1);
      expect(total(inner)).toBeGreaterThan(0);
      expect(total(inner)).toBeLessThan(total(outer));
      const depth = cut.at * (cut.frame.name === 'plan' ? 1 : -1);
      // The top of an upright cut is the sheer, which bounds no free space: the surface knows no deck.
      const free = inner.flat().filter((p) => {
        const [x] = lift(cut.frame, p, depth);
        return cut.frame.name === 'plan' || p[1] < hull.sheerAt(x) - 0.03;
      });
      const onFace = free.filter((p) => {
        const q = lift(cut.frame, p, depth);
        return Math.abs(hull.clearance(q, q, 0.05)) < 4e-4;
      });
      // Corners that the clip made between two points of the face lie a little inside; there are few of them.
      expect(onFace.length).toBeGreaterThan(free.length * 0.9);
    }
  });

  it('draw walls with their true thickness and inside the hull', () => {
    const cut: Cut = { frame: PLAN, at: 0.5 };
    const walls = wallsInCut(layout, cut, null);
    expect(walls.length).toBeGreaterThan(10);
    for (const wall of walls) {
      const source = layout.walls.find((w) => `${w.id}/cut` === wall.id);
      if (wall.kind !== 'area' || !source || Math.abs(source.normal[2]) > 1e-9) continue;
      const ring = wall.rings[0] as Ring;
      const across = ring.map((p) => p[0] * source.normal[0] + p[1] * source.normal[1]);
      expect(Math.max(...across) - Math.min(...across)).toBeCloseTo(source.thicknessM, 9);
    }
  });

  it('show both hulls of a catamaran, each the mirror of the other', () => {
    const two = hullSurface({ ...(boat.hull as NonNullable<Boat['hull']>), offsetM: 2.4 });
    for (const cut of [
      { frame: SECTION, at: 5 },
      { frame: PLAN, at: 0.1 },
    ]) {
      const { outer, inner } = hullCut(two, cut);
      expect(outer).toHaveLength(2);
      expect(inner.length % 2).toBe(0);
      // derived: the hull is the one of the monohull, so its area is there twice
      expect(total(outer)).toBeCloseTo(2 * total(hullCut(hull, cut).outer), 6);
      const across = cut.frame === PLAN ? 1 : 0;
      const [one, other] = outer.map((ring) => ring.map((p) => p[across] as number));
      expect(Math.min(...(one ?? []))).toBeCloseTo(-Math.max(...(other ?? [])), 9);
    }
  });

  it('miss what they do not meet', () => {
    expect(compartmentInCut(layout, 'saloon', { frame: SECTION, at: 2 }, null)).toEqual([]);
    expect(hullCut(hull, { frame: SECTION, at: 40 })).toEqual({ outer: [], inner: [], free: [] });
  });
});
