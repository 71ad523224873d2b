import { distance, norm, pointInBoat, unit, type Vec3 } from '../../base/vec';
import type { Boat, Shape } from '../../boat/schema/boat';
import type { Facts } from '../../rules/facts';
import { bounds } from '../../shape/layout/prism';
import type { Layout } from '../../shape/layout/types';
import { passOpening } from '../../shape/space/passing';
import { waysIn } from '../../shape/space/ways-in';
import { girthOf } from '../fit/body';
import { fitting } from '../routing-line';
import type { GroupLead } from './free-places';
import type { MovedGroup } from './moved-group';
import type { PlaceTest, PlaceTestResult } from './place-report';
import { notJudged } from './place-tests';

/** What bounds alone tell of a compartment: tests that fail wherever in it the parts stand, and those that hang on no place in it. */
export type Tints = Readonly<Partial<Record<PlaceTest, PlaceTestResult>>>;

/** What is drawn of a compartment, as a box. */
export function boxOf(layout: Layout, compartment: string): readonly [Vec3, Vec3] | null {
  const cells = (layout.cellsOf[compartment] ?? []).flatMap((index) => layout.cells[index] ?? []);
  return cells.length === 0 ? null : bounds(cells.flatMap((cell) => [cell.low, cell.high]));
}

/** Rounding of sums of coordinates, metres. */
const DUST_M = 1e-7;

/** Everything here is proved: what fails by a bound fails in every place, and no search takes it back. */
export function firstTints(
  group: MovedGroup,
  compartment: string,
  {
    boat,
    layout,
    facts,
    leads,
  }: { readonly boat: Boat; readonly layout: Layout; readonly facts: Facts; readonly leads: readonly GroupLead[] },
): Tints {
  const box = boxOf(layout, compartment);
  if (!box) return { fits: failed('noRoom', null, null, [compartment]) };
  const fits = tooLarge(group, box, compartment);
  if (fits) return { fits };
  const passes = wayFor(group, compartment, boat, layout);
  const mounts = surfaceFor(group, compartment, facts);
  const reaches = lineTooShort(leads, box);
  return {
    ...(passes ? { passes } : {}),
    ...(mounts ? { mounts } : {}),
    ...(reaches ? { reaches } : {}),
  };
}

const failed = (
  reason: string,
  measured: PlaceTestResult['measured'],
  limit: PlaceTestResult['limit'],
  about: readonly string[],
): PlaceTestResult => ({ ...notJudged, outcome: 'fail', reason, measured, limit, about });

/** A part is no longer than the longest line of its room, no thicker than the room is narrow, and no larger than it. */
function tooLarge(group: MovedGroup, [low, high]: readonly [Vec3, Vec3], compartment: string): PlaceTestResult | null {
  const sides = [0, 1, 2].map((k) => (high[k] ?? 0) - (low[k] ?? 0));
  const narrow = Math.min(...sides);
  const longest = distance(low, high);
  const volume = sides.reduce((product, side) => product * side, 1);
  for (const { id, part } of group.members) {
    const { leastSideM, longestM, volumeM3 } = girthOf(part.shape);
    const about = [id, compartment];
    if (leastSideM > narrow + DUST_M)
      return failed('thickerThanRoom', { value: narrow, unit: 'm' }, { value: leastSideM, bound: 'atLeast' }, about);
    if (longestM > longest + DUST_M)
      return failed('longerThanRoom', { value: longest, unit: 'm' }, { value: longestM, bound: 'atLeast' }, about);
    if (volumeM3 > volume * (1 + DUST_M))
      return failed(
        'largerThanRoom',
        { value: volume * 1000, unit: 'L' },
        { value: volumeM3 * 1000, bound: 'atLeast' },
        about,
      );
  }
  return null;
}

/** Proved by sizes: no chain of openings lets every part through. Without an opening it is for the checks to ask for one. */
function wayFor(group: MovedGroup, compartment: string, boat: Boat, layout: Layout): PlaceTestResult | null {
  const ways = waysIn(layout, boat, compartment);
  if (ways.length === 0 || ways.some(({ openings }) => openings.length === 0)) return null;
  for (const { id, part } of group.members) {
    const stops = ways.map(({ openings }) => tightest(part.shape, openings, boat));
    if (stops.some((stop) => stop === null)) continue;
    const best = stops.reduce((a, b) => ((b?.spareM ?? 0) > (a?.spareM ?? 0) ? b : a));
    if (best)
      return failed('tooBigForOpening', { value: best.spareM, unit: 'm' }, { value: 0, bound: 'atLeast' }, [
        id,
        best.opening,
      ]);
  }
  return null;
}

/** The first opening of a way that a shape is proved not to pass; null where none is. */
function tightest(
  shape: Shape,
  openings: readonly string[],
  boat: Boat,
): { readonly opening: string; readonly spareM: number } | null {
  for (const id of openings) {
    const opening = boat.openings[id];
    const passage = opening && passOpening(shape, opening);
    if (passage?.outcome === 'cannot') return { opening: id, spareM: passage.spareM };
  }
  return null;
}

/** A part that says by which face it is fixed needs a surface there; where none is drawn nobody knows. */
function surfaceFor(group: MovedGroup, compartment: string, facts: Facts): PlaceTestResult | null {
  const asking = group.members.find(({ part }) => part.mounting?.face !== undefined);
  if (!asking || asking !== group.lead) return null;
  if (Object.values(facts.mountingSurfaces()).some((surface) => surface.compartment === compartment)) return null;
  return {
    ...notJudged,
    outcome: 'cannotTell',
    reason: 'noSurface',
    about: [asking.id, compartment],
    enterNext: `Draw the face that ${asking.part.name} is screwed to in ${facts.compartmentName(compartment)}`,
  };
}

/** A hose with its ends on that is shorter than the way from its other end to the nearest corner of the compartment. */
function lineTooShort(leads: readonly GroupLead[], [low, high]: readonly [Vec3, Vec3]): PlaceTestResult | null {
  let worst: PlaceTestResult | null = null;
  let missing = 0;
  for (const { line, port, other, usableM } of leads) {
    if (usableM === null) continue;
    // the middle of the part is in the compartment, its port as far from that as it is on the part
    const nearest: Vec3 = [
      clamp(other[0], low[0], high[0]),
      clamp(other[1], low[1], high[1]),
      clamp(other[2], low[2], high[2]),
    ];
    const least = distance(other, nearest) - norm(port);
    if (least - usableM <= missing) continue;
    missing = least - usableM;
    worst = failed('lineTooShort', { value: least, unit: 'm' }, { value: usableM, bound: 'atMost' }, [line]);
  }
  return worst;
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** Lines of the parts with their other ends, as far as those stand somewhere and do not move along. */
export function leadsOf(group: MovedGroup, lines: readonly string[], facts: Facts): readonly GroupLead[] {
  return lines.flatMap((id): GroupLead[] => {
    const line = facts.line(id);
    if (!line) return [];
    const ends = [line.from, line.to];
    const own = ends.filter(({ thing }) => group.ids.includes(thing));
    const [end] = own;
    const far = ends.find(({ thing }) => !group.ids.includes(thing));
    const thing = far && facts.thing(far.thing);
    const pose = far && facts.pose(far.thing);
    const port = thing && Object.hasOwn(thing.ports, far.port) ? thing.ports[far.port] : undefined;
    const mine = end && group.members.find((member) => member.id === end.thing)?.part.ports;
    const ownPort = mine && Object.hasOwn(mine, end.port) ? mine[end.port] : undefined;
    if (own.length !== 1 || !end || !pose || !port || !ownPort) return [];
    const kind = facts.lineKind(line.kind);
    const {
      rigidM = 0,
      angleDeg,
      dropM = 0,
    } = kind ? fitting(line, kind, end === line.from ? 'from' : 'to') : { angleDeg: 0 };
    const radiusM = (kind?.outsideM ?? 0) / 2;
    const straightM = (angleDeg === 0 ? rigidM : dropM) + (kind?.straightM ?? 0) + ownPort.straightM;
    return [
      {
        line: id,
        member: end.thing,
        port: ownPort.at,
        direction: unit(ownPort.direction),
        roomM: straightM + (angleDeg === 0 ? (kind?.bendRadiusM ?? 0) : 0) + radiusM,
        radiusM,
        other: pointInBoat(pose, port.at),
        usableM: line.supplied ? line.supplied.lengthM - line.supplied.spareM : null,
      },
    ];
  });
}
