import type { Vec3 } from '@core/base/vec';
import { routeLine } from '@core/runs/routing/route';
import type { RoutingLine, RoutingView } from '@core/runs/routing/types';
import type { BoxSolid } from '@core/shape/space/solids';
import { plainBox, plainLead, plainLine } from '../support/plain-hose';
import { hall } from './dubins-poses';

/** Shortest ways round things in closed form, and the product's hose beside them. */
export type P2 = readonly [number, number];

/** An edge seen from above that the string goes round, on its left or on its right. */
export interface Edge {
  readonly at: P2;
  readonly side: 'left' | 'right';
}

export interface Taut {
  readonly lengthM: number;
  /** Unit directions of the first straight and of the last. */
  readonly leaves: P2;
  readonly arrives: P2;
}

/**
 * The taut string from a to b round discs of radius q about the edges, in their order: common tangents and arcs. Derived: a disc
 * to the left of the string lies q to the left of both its tangents, so a tangent between discs that lie p and s to the left
 * (negative: to the right) and d apart is turned by asin((s - p) / d) from the line of centres and is sqrt(d^2 - (s - p)^2) long.
 */
export function taut(a: P2, edges: readonly Edge[], b: P2, q: number): Taut {
  const stations = [{ at: a, left: 0 }, ...edges.map(({ at, side }) => ({ at, left: side === 'left' ? q : -q }))];
  stations.push({ at: b, left: 0 });
  const headings: number[] = [];
  let lengthM = 0;
  stations.slice(1).forEach((to, k) => {
    const from = stations[k] as (typeof stations)[number];
    const [dx, dy] = [to.at[0] - from.at[0], to.at[1] - from.at[1]];
    const across = to.left - from.left;
    headings.push(Math.atan2(dy, dx) - Math.asin(across / Math.hypot(dx, dy)));
    lengthM += Math.sqrt(dx * dx + dy * dy - across * across);
  });
  headings.slice(1).forEach((heading, k) => {
    const turn = heading - (headings[k] as number);
    lengthM += q * Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn)));
  });
  const along = (heading: number): P2 => [Math.cos(heading), Math.sin(heading)];
  return { lengthM, leaves: along(headings[0] as number), arrives: along(headings.at(-1) as number) };
}

/** A supple hose from a to b that leaves and arrives in the given directions of travel. */
function hose(
  { radiusM, bendRadiusM }: { readonly radiusM: number; readonly bendRadiusM: number },
  a: { readonly at: Vec3; readonly direction: Vec3 },
  b: { readonly at: Vec3; readonly direction: Vec3 },
): RoutingLine {
  const [x, y, z] = b.direction;
  return plainLine(
    plainLead(a.at, a.direction, radiusM, { thing: 'a' }),
    plainLead(b.at, [-x, -y, -z], radiusM, { thing: 'b' }),
    { radiusM, bendRadiusM },
  );
}

/** A way whose shortest length is known from both sides, and the length of the product's run, NaN where it found none. */
export interface Case {
  readonly leastM: number;
  readonly mostM: number;
  readonly line: RoutingLine;
  readonly view: RoutingView;
  routed(): number;
}
export type Size = Parameters<typeof hose>[0];

function caseOf(leastM: number, mostM: number, boxes: readonly BoxSolid[], line: RoutingLine): Case {
  const view = { ...hall, thingsIn: () => boxes };
  let known: number | null = null;
  const routed = (): number => {
    if (known !== null) return known;
    const outcome = routeLine(view, line, 'deep');
    known = outcome.status === 'routed' ? outcome.lengthM : Number.NaN;
    return known;
  };
  return { leastM, mostM, line, view, routed };
}

/** Round upright edges from a to b, which is `fallM` lower: the sheet of the string's walls unrolls without stretch. */
function unrolled(size: Size, a: P2, edges: readonly Edge[], b: P2, fallM: number, boxes: readonly BoxSolid[]): Case {
  const around = taut(a, edges, b, size.bendRadiusM);
  const mostM = Math.hypot(around.lengthM, fallM);
  const slanted = ([x, y]: P2): Vec3 => [(x * around.lengthM) / mostM, (y * around.lengthM) / mostM, -fallM / mostM];
  const line = hose(
    size,
    { at: [...a, fallM / 2], direction: slanted(around.leaves) },
    { at: [...b, -fallM / 2], direction: slanted(around.arrives) },
  );
  return caseOf(Math.hypot(taut(a, edges, b, size.radiusM).lengthM, fallM), mostM, boxes, line);
}

/** Past one box, 10 m tall. */
export const roundOne = (size: Size, fallM: number): Case =>
  unrolled(
    size,
    [-1.5, 0.1],
    [
      { at: [-0.3, 0.4], side: 'right' },
      { at: [0.3, 0.4], side: 'right' },
    ],
    [1.2, 0.2],
    fallM,
    [plainBox('box', [0, 0, 0], [0.3, 0.4, 5])],
  );

/** Past one box on its left and the next on its right. */
export function slalom(
  size: Size,
  fallM: number,
): Case & { readonly edges: readonly Edge[]; readonly ends: readonly [P2, P2]; readonly boxes: readonly BoxSolid[] } {
  const boxes = [plainBox('one', [-0.7, -2, 0], [0.2, 2.3, 5]), plainBox('two', [0.7, 2, 0], [0.25, 2.4, 5])];
  const edges: Edge[] = [
    { at: [-0.9, 0.3], side: 'right' },
    { at: [-0.5, 0.3], side: 'right' },
    { at: [0.45, -0.4], side: 'left' },
    { at: [0.95, -0.4], side: 'left' },
  ];
  const ends = [[-2, 0] as P2, [2, 0] as P2] as const;
  return { ...unrolled(size, ends[0], edges, ends[1], fallM, boxes), edges, ends, boxes };
}

/** Ports beside a face stand this much farther off than the hose needs. */
const STANDOFF_M = 1e-4;

/** From the top of a block, 0.6 m behind its edge, to its front, 0.5 m below: the two faces laid flat, the edge between them a strip. */
export function overEdge(size: Size, alongM: number): Case {
  const off = size.radiusM + STANDOFF_M;
  const flat = (q: number): number => 0.6 + 0.5 + (Math.PI / 2) * q;
  const mostM = Math.hypot(flat(size.bendRadiusM + STANDOFF_M), alongM);
  const [across, along] = [flat(size.bendRadiusM) / mostM, alongM / mostM];
  const line = hose(
    size,
    { at: [-0.6, -alongM / 2, off], direction: [across, along, 0] },
    { at: [off, alongM / 2, -0.5], direction: [0, along, -across] },
  );
  const block = plainBox('block', [-1, 0, -1], [1, 3, 1]);
  return caseOf(Math.hypot(flat(size.radiusM), alongM), mostM, [block], line);
}

/**
 * From end to end of a box 3 by 1.2 by 1.2 m. Unfolded over end, top, side, bottom and end the way is 3.2 by 2.4 m, and each edge is
 * a strip as wide as a quarter turn. Brought down to the box, a way about it gets no longer: none is shorter than 4 m.
 */
export function spiderAndFly(size: Size): Case & { readonly overTopM: number } {
  const off = 0.01;
  const strip = Math.PI * (size.bendRadiusM + off);
  const [x, y] = [3.2 + strip, 2.4 + strip];
  const mostM = Math.hypot(x, y);
  const line = hose(
    size,
    { at: [-1.5 - size.radiusM - off, 0, 0.5], direction: [0, y / mostM, x / mostM] },
    { at: [1.5 + size.radiusM + off, 0, -0.5], direction: [0, -y / mostM, x / mostM] },
  );
  const box = plainBox('box', [0, 0, 0], [1.5, 0.6, 0.6]);
  return { ...caseOf(Math.hypot(3.2, 2.4), mostM, [box], line), overTopM: 4.2 };
}
