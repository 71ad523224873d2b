/**
 * Legs of a run as if nothing stood in the way: from one given direction to another by arc, straight, arc or by three arcs
 * (L. E. Dubins, American Journal of Mathematics 79, 1957: one of these six words is the shortest curve in the plane).
 * Where a band starts decides where it ends, and between near ports the straight way is a bad start.
 */
import * as portable from '../../base/portable';
import { along, cross, distance, dot, scale, squareTo, subtract, type Vec3 } from '../../base/vec';
import { SPARE_M } from './band-clearance';
import { type Element, holeCentre, placeCorners } from './polygon';

/** A leg as a tangent polygon: distances of its outer corners from the two ends, and the corners between. */
export interface Word {
  readonly lengthM: number;
  readonly firstM: number;
  readonly lastM: number;
  readonly corners: readonly Vec3[];
}

/** A place with a direction of travel. */
export interface Pose {
  readonly at: Vec3;
  readonly direction: Vec3;
}

/** Turns beyond this are made by several corners. */
const LARGEST_TURN_RAD = 1.75;
const STRAIGHT_RAD = 1e-7;
/** Directions this far out of the plane of the other end and the way ask for the plane of this end as well. */
const ASKEW = 0.02;

/** The words between two poses, shortest first. Where the poses lie in no common plane they are a start and no more. */
export function wordsBetween(from: Pose, to: Pose, radiusM: number): Word[] {
  const words = wordsInPlane(from, to, radiusM);
  const way = subtract(to.at, from.at);
  const n = cross(from.direction, way);
  const size = portable.hypot(...n);
  if (size > 1e-9 && Math.abs(dot(n, to.direction)) > ASKEW * size) {
    const back = wordsInPlane(
      { at: to.at, direction: scale(to.direction, -1) },
      { at: from.at, direction: scale(from.direction, -1) },
      radiusM,
    );
    for (const { lengthM, firstM, lastM, corners } of back)
      words.push({ lengthM, firstM: lastM, lastM: firstM, corners: [...corners].reverse() });
  }
  return words.sort((a, b) => a.lengthM - b.lengthM);
}

type Bend = 1 | 0 | -1;
interface Part {
  readonly bend: Bend;
  /** Radians of an arc, metres of a straight. */
  readonly size: number;
}

/** In the plane of the first direction and the way. */
function wordsInPlane(from: Pose, to: Pose, radiusM: number): Word[] {
  const ahead = from.direction;
  const aside = sideOf(ahead, subtract(to.at, from.at)) ?? sideOf(ahead, to.direction) ?? squareTo(ahead);
  const way = subtract(to.at, from.at);
  const [x, y] = [dot(way, ahead), dot(way, aside)];
  const heading = portable.atan2(dot(to.direction, aside), dot(to.direction, ahead));
  const words: Word[] = [];
  for (const parts of planeWords(x, y, heading, radiusM)) {
    const corners: Vec3[] = [];
    const [firstM, lastM] = [reachOf(parts[0] as Part, radiusM), reachOf(parts.at(-1) as Part, radiusM)];
    let [px, py, angle, lengthM] = [0, 0, 0, 0];
    for (const { bend, size } of parts) {
      if (bend === 0) {
        px += portable.cos(angle) * size;
        py += portable.sin(angle) * size;
        lengthM += size;
        continue;
      }
      if (size < STRAIGHT_RAD) continue;
      const pieces = Math.ceil(size / LARGEST_TURN_RAD);
      const turn = (bend * size) / pieces;
      const tangent = radiusM * portable.tan(size / pieces / 2);
      for (let piece = 0; piece < pieces; piece += 1) {
        const [cx, cy] = [px + portable.cos(angle) * tangent, py + portable.sin(angle) * tangent];
        corners.push(along(along(from.at, ahead, cx), aside, cy));
        angle += turn;
        px = cx + portable.cos(angle) * tangent;
        py = cy + portable.sin(angle) * tangent;
      }
      lengthM += radiusM * size;
    }
    // The outer corners slide on the rays of the two ends.
    if (firstM > 0) corners.shift();
    if (lastM > 0) corners.pop();
    words.push({ lengthM, firstM, lastM, corners });
  }
  return words;
}

function sideOf(ahead: Vec3, way: Vec3): Vec3 | null {
  const off = subtract(way, scale(ahead, dot(way, ahead)));
  const size = portable.hypot(...off);
  return size > 1e-6 ? scale(off, 1 / size) : null;
}

function reachOf({ bend, size }: Part, radiusM: number): number {
  if (bend === 0 || size < STRAIGHT_RAD) return 0;
  return radiusM * portable.tan(size / Math.ceil(size / LARGEST_TURN_RAD) / 2);
}

/** Words from the origin along the x axis to (x, y) with that heading, by the circles that touch both ends. */
function planeWords(x: number, y: number, heading: number, r: number): Part[][] {
  const words: Part[][] = [];
  for (const first of [1, -1] as const)
    for (const last of [1, -1] as const) {
      const dx = x - last * r * portable.sin(heading);
      const dy = y + last * r * portable.cos(heading) - first * r;
      const apart = portable.hypot(dx, dy);
      const towards = portable.atan2(dy, dx);
      if (first === last) {
        words.push([
          { bend: first, size: turnBy(first * towards) },
          { bend: 0, size: apart },
          { bend: last, size: turnBy(last * (heading - towards)) },
        ]);
        if (apart > 4 * r || apart < 1e-9) continue;
        // Three arcs: the circle between touches both others, on either side.
        const lean = portable.acos(apart / (4 * r));
        for (const side of [1, -1]) {
          const [a, b] = [towards + side * lean, towards + Math.PI - side * lean];
          const [into, out] = [a + (first * Math.PI) / 2, b + (first * Math.PI) / 2];
          words.push([
            { bend: first, size: turnBy(first * into) },
            { bend: -first as Bend, size: turnBy(-first * (out - into)) },
            { bend: last, size: turnBy(last * (heading - out)) },
          ]);
        }
      } else if (apart >= 2 * r) {
        const along = towards + first * portable.asin((2 * r) / apart);
        words.push([
          { bend: first, size: turnBy(first * along) },
          { bend: 0, size: Math.sqrt(apart * apart - 4 * r * r) },
          { bend: last, size: turnBy(last * (heading - along)) },
        ]);
      }
    }
  return words;
}

/** An angle as a turn of less than a full circle; a hair short of one is none. */
function turnBy(angle: number): number {
  const turn = angle - 2 * Math.PI * Math.floor(angle / (2 * Math.PI));
  return turn > 2 * Math.PI - 1e-7 ? 0 : turn;
}

/** Bends of the words are this much wider than asked, as the band's are. */
const RADIUS_SPARE = 5e-4;

/** The stretch between two elements that hold the hose in a direction. */
interface Leg {
  readonly from: number;
  readonly to: number;
  readonly lengthM: number;
  /** Straight length that the bends want and do not get. */
  readonly missingM: number;
  readonly words: readonly Word[];
}

/**
 * The polygon with its bad legs replaced by their `rank`-th shortest word: legs whose bends do not fit or, when all fit as in a
 * run, legs that are longer than they need be by more than `share`. Null when there is none.
 */
export function reworded(
  elements: readonly Element[],
  bendRadiusM: number,
  rank: number,
  share: number,
  isRun: boolean,
): Element[] | null {
  const legs = legsOf(elements, bendRadiusM * (1 + RADIUS_SPARE));
  const isTight = !isRun && legs.some((leg) => leg.missingM > TIGHT_M);
  const worded = legs.filter((leg) => leg.words[rank]);
  const long = worded.filter((leg) =>
    isTight ? leg.missingM > TIGHT_M : leg.lengthM > (1 + share) * (leg.words[rank] as Word).lengthM,
  );
  // What fits and is short but came to nothing turns too sharply somewhere: any leg may be to blame.
  const bad = long.length > 0 || isRun ? long : worded;
  if (bad.length === 0) return null;
  const changed = elements.map((element): Element => ({ ...element, params: [...element.params] }));
  const out: Element[] = [];
  changed.forEach((element, k) => {
    if (bad.some((leg) => k > leg.from && k < leg.to)) return;
    out.push(element);
    const leg = bad.find((one) => one.from === k);
    const word = leg?.words[rank];
    if (!leg || !word) return;
    setReach(element, true, word.firstM);
    setReach(changed[leg.to] as Element, false, word.lastM);
    for (const corner of word.corners) out.push({ kind: 'free', params: [...corner] });
  });
  return out;
}
const TIGHT_M = 1e-5;

function legsOf(elements: readonly Element[], radiusM: number): Leg[] {
  const legs: Leg[] = [];
  for (let from = 0; from + 1 < elements.length; ) {
    let to = from + 1;
    while (to + 1 < elements.length && (elements[to] as Element).kind === 'free') to += 1;
    const start = poseAt(elements[from] as Element, true);
    const end = poseAt(elements[to] as Element, false);
    if (start && end) {
      const { lengthM, missingM } = measured(elements, from, to, start.at, end.at, radiusM);
      legs.push({ from, to, lengthM, missingM, words: wordsBetween(start, end, radiusM) });
    }
    from = to;
  }
  return legs;
}

/** Where bends may begin behind the element, or must have ended before it; null where the direction is free. */
function poseAt(element: Element, behind: boolean): Pose | null {
  if (element.kind === 'lead') {
    const at = along(element.at, element.out, element.leadM);
    return { at, direction: behind ? element.out : scale(element.out, -1) };
  }
  if (element.kind !== 'hole') return null;
  const direction = element.forward ? element.frame.n : scale(element.frame.n, -1);
  return { at: along(holeCentre(element), direction, (behind ? 1 : -1) * (element.stubM + SPARE_M)), direction };
}

function setReach(element: Element, behind: boolean, reachM: number): void {
  if (element.kind === 'lead') element.params[0] = element.leadM + reachM;
  else if (element.kind === 'hole') element.params[behind ? 3 : 2] = element.stubM + SPARE_M + reachM;
}

function measured(
  elements: readonly Element[],
  from: number,
  to: number,
  start: Vec3,
  end: Vec3,
  radiusM: number,
): { readonly lengthM: number; readonly missingM: number } {
  const points: Vec3[] = [start];
  for (let k = from; k <= to; k += 1) {
    const [x, y, z]: [number[], number[], number[]] = [[], [], []];
    const element = elements[k] as Element;
    placeCorners(element, 0, x, y, z);
    // Of a hole, the corner on the leg's side.
    const c = element.kind === 'hole' && k === from ? 1 : 0;
    points.push([x[c] as number, y[c] as number, z[c] as number]);
  }
  points.push(end);
  let lengthM = 0;
  let missingM = 0;
  let taken = 0;
  for (let k = 0; k + 1 < points.length; k += 1) {
    const [p, q] = [points[k] as Vec3, points[k + 1] as Vec3];
    const edge = distance(p, q);
    const next = points[k + 2];
    let tangent = 0;
    if (next) {
      const [u, v] = [subtract(q, p), subtract(next, q)];
      const angle = portable.atan2(portable.hypot(...cross(u, v)), dot(u, v));
      tangent = radiusM * portable.tan(Math.min(angle, LARGEST_MEASURED_RAD) / 2);
      lengthM -= 2 * tangent - radiusM * angle;
    }
    lengthM += edge;
    missingM += Math.max(0, taken + tangent - edge);
    taken = tangent;
  }
  return { lengthM, missingM };
}
const LARGEST_MEASURED_RAD = 2.618;
