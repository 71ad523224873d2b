import * as portable from '../../base/portable';
import { along, degrees, distance, norm, type Pose, pointInBoat, subtract, type Vec3 } from '../../base/vec';
import type { Opening, Thing } from '../../boat/schema/boat';
import type { Layout } from '../../shape/layout/types';
import { segmentToSolid } from '../../shape/space/kernel';
import type { Solid } from '../../shape/space/solids';
import { solidBounds } from '../../shape/space/things';
import { WET } from './sea-path';

/** Where water falls on: straight down, spreading within a cone, until something stands in between. */

/** Places of a thing that may drip: its ports that carry water, the lowest point under a bowl, the caps of a membrane. */
export function dripPoints(
  thing: Thing,
  pose: Pose,
  solid: Solid | null,
  wetPorts: readonly string[],
): readonly Vec3[] {
  const ports = wetPorts.flatMap((id) => (thing.ports[id] ? [pointInBoat(pose, thing.ports[id].at)] : []));
  if (solid?.type === 'cylinder' && thing.kind === 'membrane') return [...ports, solid.from, solid.to];
  if (!solid || !HUNG.has(thing.kind)) return ports;
  const { low, high } = solidBounds(solid);
  return [...ports, [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, low[2]]];
}
const HUNG: ReadonlySet<string> = new Set(['filter', 'carbonFilter', 'strainer']);

/** Whether a port carries water, by its own word or by that of the line on it. */
export const isWet = (medium: string | undefined): boolean => medium !== undefined && WET.has(medium);

/** Where falling water meets the top of a thing. */
export interface Landing {
  /** Off the plumb line, degrees. */
  readonly offDeg: number;
  readonly dropM: number;
  /** Level distance from the plumb line. */
  readonly asideM: number;
  readonly at: Vec3;
}

/** The nearest point of the top of a solid, by its upright bounds; null where it does not lie below. */
export function landingOn(solid: Solid, from: Vec3): Landing | null {
  const { low, high } = solidBounds(solid);
  const at: Vec3 = [clamp(from[0], low[0], high[0]), clamp(from[1], low[1], high[1]), high[2]];
  const dropM = from[2] - at[2];
  if (!(dropM > 0)) return null;
  const asideM = portable.hypot(from[0] - at[0], from[1] - at[1]);
  return { offDeg: degrees(portable.atan2(asideM, dropM)), dropM, asideM, at };
}

/** How far the angle off the plumb line turns for each metre that one of the two stands further aside, degrees a metre. */
export const degreesPerMetre = ({ dropM, asideM }: Pick<Landing, 'dropM' | 'asideM'>): number =>
  degrees(dropM / (dropM * dropM + asideM * asideM));

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** A line is looked at this often for the compartment that it is in. */
const STEP_M = 0.01;
/** Nearer than this to its ends nothing is in between: what it leaves and what it lands on touch it there. */
const END_M = 0.002;

/** What stands between two points and turns water aside: a thing, or the border of two compartments; null when nothing does. */
export function between(
  from: Vec3,
  to: Vec3,
  around: {
    readonly layout: Layout;
    readonly openings: Readonly<Record<string, Opening>>;
    /** In order of their ids. */
    readonly solids: readonly Solid[];
    readonly ignores: ReadonlySet<string>;
  },
): string | null {
  const span = subtract(to, from);
  const length = norm(span);
  if (length <= 2 * END_M) return null;
  const [a, b] = [along(from, span, END_M / length), along(to, span, -END_M / length)];
  const solid = around.solids.find(
    ({ owner, layer, ...rest }) =>
      layer === 'furnishing' &&
      !around.ignores.has(owner) &&
      segmentToSolid(a, b, { ...rest, owner, layer } as Solid, 1) <= 0,
  );
  if (solid) return solid.owner;
  let last = around.layout.compartmentAt(a);
  // To just within what it lands on: that may stand against the far side of a panel.
  const beyond = along(to, span, END_M / length);
  const steps = Math.ceil(distance(a, beyond) / STEP_M);
  for (let step = 1; step <= steps; step += 1) {
    const here = around.layout.compartmentAt(along(a, subtract(beyond, a), step / steps));
    if (here === null || here === last) continue;
    if (last !== null && !isOpenBetween(last, here, around)) return [last, here].sort().join('|');
    last = here;
  }
  return null;
}

/** Whether nothing stands between two compartments: an open panel, or an opening that is never shut. */
export const isOpenBetween = (
  a: string,
  b: string,
  { layout, openings }: Pick<Parameters<typeof between>[2], 'layout' | 'openings'>,
): boolean =>
  Object.values(layout.panels).some(
    ({ rule, between: sides }) => rule === 'open' && sides.includes(a) && sides.includes(b),
  ) ||
  Object.values(openings).some(
    ({ how, compartment, to }) => how === 'open' && [compartment, to].includes(a) && [compartment, to].includes(b),
  );
