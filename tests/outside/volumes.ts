import type { Compartment, Hull } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { compartmentVolume } from '@core/shape/layout/room';
import { layoutOf } from '../core/shape/layout/boats';
import { type Dice, dice, micro } from '../support/dice';
import { canoe, wigley, wineglass } from '../support/hull-shapes';
import { hullSolid, prismSolid, type Solid } from '../support/manifold-oracle';

/** A hull and the same interpolant with four times as many facets each way, as a solid of the library. */
export interface Judged {
  readonly name: string;
  readonly hull: Hull;
  readonly surface: HullSurface;
  readonly solid: Solid;
}

const FINENESS = 4;
const TOP_M = 6;

export const judgedHulls = (): readonly Judged[] =>
  (
    [
      ['wineglass with a keel trunk', wineglass()],
      ['canoe body', canoe()],
      ['Wigley with upright sides', wigley(9, 3, 0.6, 21, 15, 0.8)],
    ] as const
  ).map(([name, hull]) => ({
    name,
    hull,
    surface: hullSurface(hull),
    solid: hullSolid(hullSurface(hull, FINENESS), TOP_M),
  }));

/** A prism somewhere about the skin, of any view, its outline a triangle to an octagon, hollow or not, turned or not. */
export function anyPrism({ aftM, forwardM }: HullSurface, { from, whole, pick }: Dice): Compartment {
  const view = pick(['plan', 'profile', 'section'] as const);
  const corners = 3 + whole(6);
  const middle = [from(aftM, forwardM), from(-1.4, 1.4), from(-0.8, 0.9)] as const;
  const [i, j, k] =
    view === 'plan' ? ([0, 1, 2] as const) : view === 'profile' ? ([0, 2, 1] as const) : ([1, 2, 0] as const);
  // A ring about its middle: angles that rise, any distance, so that it never crosses itself.
  const outline = Array.from({ length: corners }, (_, c): [number, number] => {
    const angle = ((c + from(0.1, 0.9)) / corners) * 2 * Math.PI;
    const reach = from(0.25, 1);
    return [micro(middle[i] + reach * Math.cos(angle)), micro(middle[j] + reach * Math.sin(angle))];
  });
  const half = from(0.1, 0.8);
  return {
    name: 'any',
    kind: 'locker',
    view,
    outline,
    rangeM: [micro(middle[k] - half), micro(middle[k] + half)],
    yawDeg: pick([0, 0, micro(from(-180, 180))]),
    grade: 'taped',
  };
}

export interface Compared {
  readonly what: string;
  readonly gotM3: number;
  readonly wantM3: number;
}

/** Rooms of random prisms by the product and by the library. */
export function compared(hulls: readonly Judged[], seeds: readonly number[]): readonly Compared[] {
  return seeds.map((seed) => {
    const throws = dice(seed);
    const { name, surface, solid } = throws.pick(hulls);
    const c = anyPrism(surface, throws);
    return {
      what: `seed ${seed}, ${name}, ${c.view}`,
      gotM3: compartmentVolume(layoutOf({ c }), surface, 'c').volumeM3,
      wantM3: solid.intersect(prismSolid(c)).volume(),
    };
  });
}

/** Prisms that share no space with one another. */
export function apart(surface: HullSurface, throws: Dice, count: number): Record<string, Compartment> {
  let kept: Record<string, Compartment> = {};
  while (Object.keys(kept).length < count) {
    const more = { ...kept, [`c${Object.keys(kept).length}`]: anyPrism(surface, throws) };
    if (layoutOf(more).overlaps.length === 0) kept = more;
  }
  return kept;
}

/** Rooms of random prisms in a lined hull, the layer along the skin counted in points of a jittered grid of so many each way. */
export function comparedInset(
  hulls: readonly Judged[],
  skin: { readonly shellM: number; readonly liningM: number },
  seeds: readonly number[],
  count: number,
): readonly Compared[] {
  const insetM = skin.shellM + skin.liningM;
  return seeds.flatMap((seed): Compared[] => {
    const throws = dice(seed);
    const { name, hull, solid } = throws.pick(hulls);
    const lined = hullSurface({ ...hull, ...skin });
    const c = anyPrism(lined, throws);
    const layout = layoutOf({ c });
    const within = solid.intersect(prismSolid(c));
    if (within.volume() < 1e-3) return [];
    const { min, max } = within.boundingBox();
    const step = [0, 1, 2].map((k) => ((max[k] as number) - (min[k] as number)) / count) as [number, number, number];
    let taken = 0;
    for (let i = 0; i < count ** 3; i++) {
      const place = [i % count, Math.floor(i / count) % count, Math.floor(i / count ** 2)];
      const p = place.map((k, axis) => (min[axis] as number) + (k + throws.next()) * (step[axis] as number)) as [
        number,
        number,
        number,
      ];
      if (layout.cellAt(p) === null) continue;
      // Clearance counts from the inner face: the layer is what lies less than the inset beyond it.
      const freeM = lined.clearance(p, p, 1e-3);
      if (freeM < 0 && freeM >= -insetM) taken++;
    }
    return [
      {
        what: `seed ${seed}, lined ${name}, ${c.view}`,
        gotM3: compartmentVolume(layout, lined, 'c').volumeM3,
        wantM3: within.volume() - taken * step[0] * step[1] * step[2],
      },
    ];
  });
}
