import { FillRule, intersectD, type PathsD, unionD } from 'clipper2-ts';
import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
import { dot, type Vec2, type Vec3 } from '../../base/vec';
import type { Boat } from '../../boat/schema/boat';
import { ribsBeyondLining } from '../hull/ribs';
import type { HullSurface } from '../hull/types';

import { cellsIn, compartmentVolume, freeSection, sectionWithin, slicesBetween } from '../layout/room';
import type { Layout, Plane } from '../layout/types';
import { convexOf } from './convex';
import type { Solid } from './solids';
import { solidBounds, thingSolids } from './things';

/** What becomes of a compartment as it is drawn, m3. Net is what is left when all the others are taken off gross. */
export interface NetVolume {
  /** The prism as drawn. */
  readonly grossM3: number;
  /** Beyond the outer skin. */
  readonly outsideM3: number;
  readonly shellM3: number;
  /** Between shell and lining; the compartment's own lining where it has one. */
  readonly liningM3: number;
  /** Ribs as far as they stand into the room: their share of the layer beyond the lining. */
  readonly ribsM3: number;
  /** Solid fixtures, each litre once. */
  readonly fixturesM3: number;
  readonly netM3: number;
}

/** Sides of the prism that stands for a round fixture, of the same volume. */
const ROUND_SIDES = 48;
/** Decimals that polygon clipping keeps. */
const DECIMALS = 8;

type Aboard = Pick<Boat, 'compartments' | 'fixtures' | 'hull'>;

export function netVolume(boat: Aboard, layout: Layout, hull: HullSurface | null, compartment: string): NetVolume {
  const own = boat.compartments[compartment];
  const shellM = boat.hull?.shellM ?? 0;
  const liningM = own?.liningM ?? boat.hull?.liningM ?? 0;
  const ribs = own?.ribs ?? boat.hull?.ribs;
  const room = (insetM?: number): number => compartmentVolume(layout, hull, compartment, insetM).volumeM3;
  const grossM3 = compartmentVolume(layout, null, compartment).volumeM3;
  const inSkin = hull ? room(0) : grossM3;
  const inShell = hull ? room(shellM) : grossM3;
  const insetM = shellM + liningM;
  const lined = hull ? room(insetM) : grossM3;
  const beyondLiningM = hull ? ribsBeyondLining(ribs, liningM) : 0;
  const ribsM3 =
    ribs && beyondLiningM > 0 ? (lined - room(insetM + beyondLiningM)) * ribShare(ribs, boat.hull?.ribs) : 0;
  const fixturesM3 = filledVolume(fixtureSolids(boat), layout, hull, compartment, insetM);
  return {
    grossM3,
    outsideM3: grossM3 - inSkin,
    shellM3: inSkin - inShell,
    liningM3: inShell - lined,
    ribsM3,
    fixturesM3,
    netM3: lined - ribsM3 - fixturesM3,
  };
}

type Ribs = NonNullable<NonNullable<Boat['hull']>['ribs']>;

/** Share of the length that ribs take; a rib of unknown width counts as wide as it is deep. */
const ribShare = (ribs: Pick<Ribs, 'spacingM' | 'depthM' | 'widthM'>, ofHull: Ribs | undefined): number =>
  Math.min(1, (ribs.widthM ?? ofHull?.widthM ?? ribs.depthM) / ribs.spacingM);

const fixtureSolids = (boat: Aboard): readonly Solid[] =>
  Object.entries(boat.fixtures).flatMap(([id, fixture]) =>
    thingSolids(id, fixture, fixture.pose).filter((solid) => solid.layer === 'furnishing'),
  );

/** Volume of a compartment's room that solids fill, m3; where two share space it counts once. `insetM`: what the room stands off the skin. */
export function filledVolume(
  solids: readonly Solid[],
  layout: Layout,
  hull: HullSurface | null,
  compartment: string,
  insetM: number,
): number {
  let volumeM3 = 0;
  for (const cell of cellsIn(layout, compartment)) {
    const bodies = solids.flatMap((solid): Body[] => {
      const { low, high } = solidBounds(solid);
      const isNear = [0, 1, 2].every(
        (k) => (low[k] as number) < (cell.high[k] as number) && (high[k] as number) > (cell.low[k] as number),
      );
      return isNear ? [bodyOf(solid, low, high)] : [];
    });
    if (bodies.length === 0) continue;
    const stops = [
      ...bodies.flatMap((body) => body.stops),
      ...(hull?.columnsM ?? []),
      ...cell.corners.map((p) => p[0]),
    ];
    for (const slice of slicesBetween(cell.low[0], cell.high[0], stops)) {
      const filled = bodies.flatMap(({ planes, around }) => {
        const ring = sectionWithin(sectionWithin(around, planes, slice.x), cell.planes, slice.x);
        return ring.length > 2 ? [ring] : [];
      });
      if (filled.length === 0) continue;
      volumeM3 += slice.widthM * sharedArea(filled, hull ? freeSection(hull, slice.x, insetM) : null);
    }
  }
  return volumeM3;
}

interface Body {
  readonly planes: readonly Plane[];
  /** A rectangle of y and z around it. */
  readonly around: readonly Vec2[];
  readonly stops: readonly number[];
}

function bodyOf(solid: Solid, low: Vec3, high: Vec3): Body {
  const sides = ROUND_SIDES;
  // The prism stands around the cylinder: as much smaller as makes its area that of the circle.
  const fitted =
    solid.type === 'box'
      ? solid
      : { ...solid, radius: solid.radius * Math.sqrt(Math.PI / (sides * portable.tan(Math.PI / sides))) };
  const faces = convexOf(fitted).faces(sides);
  return {
    planes: faces.map(({ normal, polygon }) => ({ normal, offset: dot(normal, polygon[0] as Vec3) })),
    around: [
      [low[1] - 1, low[2] - 1],
      [high[1] + 1, low[2] - 1],
      [high[1] + 1, high[2] + 1],
      [low[1] - 1, high[2] + 1],
    ],
    stops: faces.flatMap(({ polygon }) => polygon.map((p) => p[0])),
  };
}

const toPaths = (rings: readonly (readonly Vec2[])[]): PathsD => rings.map((r) => r.map(([x, y]) => ({ x, y })));

/** Area that fills a section, each square metre once, as far as it is free; null: all of it is. */
function sharedArea(filled: readonly (readonly Vec2[])[], free: readonly (readonly Vec2[])[] | null): number {
  const once = unionD(toPaths(filled), [], FillRule.NonZero, DECIMALS);
  return (free ? intersectD(once, toPaths(free), FillRule.NonZero, DECIMALS) : once).reduce(
    (sum, path) => sum + signedArea(path.map(({ x, y }): Vec2 => [x, y])),
    0,
  );
}
