import * as portable from '../../base/portable';
import type { Vec2 } from '../../base/vec';
import { quantised } from '../quantise';
import type { Station } from '../station-edits';

/** A place in the text of a table. */
export interface TablePlace {
  readonly row: number;
  readonly column: number;
}

interface Half<Place> {
  readonly y?: number;
  readonly z?: number;
  readonly place: Place;
}

/** One station as a table gives it: points in their own order, or where lines of the table meet it. */
export type Drawn =
  | {
      readonly kind: 'inOrder';
      readonly points: readonly Vec2[];
      readonly places: readonly TablePlace[];
      readonly knuckles: readonly number[];
    }
  | {
      readonly kind: 'fromLines';
      readonly points: readonly { readonly at: Vec2; readonly place: TablePlace; readonly line: string }[];
      readonly keel: Half<TablePlace> | undefined;
      readonly sheer: Half<TablePlace> | undefined;
      readonly knuckle: Half<TablePlace> | undefined;
    };

export interface StationFault {
  readonly words: string;
  /** Null: the station as a whole. */
  readonly place: TablePlace | null;
}

const SAME_M = 1e-6;
/** How far a section may turn back before it is a slip: what rounding and a taut wale do. */
const TURN_BACK_M = 0.02;
const mm = (metres: number): string => `${Math.round(metres * 1000)} mm`;

/** The station that a table describes, from keel to sheer, and what cannot be a section of a hull. */
export function stationOf(
  xM: number,
  drawn: Drawn,
): { readonly station: Station; readonly faults: readonly StationFault[] } {
  const { points, places, knuckles, faults } = drawn.kind === 'inOrder' ? inOrder(drawn) : fromLines(drawn);
  if (points.length < 2)
    faults.push({ words: `${points.length === 1 ? 'one point' : 'no points'}, two at least are needed`, place: null });
  points.forEach(([y], i) => {
    if (y < 0) faults.push({ words: `half-breadth ${mm(y)} is beyond the centreline`, place: places[i] ?? null });
  });
  const station: Station = {
    xM: quantised(xM),
    points: points.map(([y, z]): [number, number] => [quantised(y), quantised(z)]),
    taken: 'table',
    ...(knuckles.length > 0 ? { knuckles: [...knuckles] } : {}),
  };
  return { station, faults };
}

interface Assembled {
  readonly points: readonly Vec2[];
  readonly places: readonly TablePlace[];
  readonly knuckles: readonly number[];
  readonly faults: StationFault[];
}

/** Points of a list keep their order; a list from the sheer down is turned round. */
function inOrder({ points, places, knuckles }: Extract<Drawn, { kind: 'inOrder' }>): Assembled {
  const falls = (points.at(-1)?.[1] ?? 0) < (points[0]?.[1] ?? 0);
  const own = falls ? [...points].reverse() : points;
  const where = falls ? [...places].reverse() : places;
  const last = points.length - 1;
  const faults = own.flatMap((point, i): StationFault[] => {
    const before = own[i - 1];
    if (!before || point[1] >= before[1] - SAME_M) return [];
    return [
      {
        words: `height ${mm(point[1])} lies below the point before it, ${mm(before[1])}: the section crosses itself`,
        place: where[i] ?? null,
      },
    ];
  });
  return {
    points: own,
    places: where,
    knuckles: falls ? knuckles.map((k) => last - k).sort((a, b) => a - b) : knuckles,
    faults,
  };
}

/** Where waterlines and buttocks meet the station, in the order of height, closed by keel and sheer. */
function fromLines({ points, keel, sheer, knuckle }: Extract<Drawn, { kind: 'fromLines' }>): Assembled {
  const faults: StationFault[] = [];
  const all = points.map(({ at, place, line }) => ({ at, place, line, isKnuckle: false }));
  if (keel?.z !== undefined)
    all.push({ at: [keel.y ?? 0, keel.z], place: keel.place, line: 'the keel', isKnuckle: false });
  if (knuckle?.z !== undefined && knuckle.y !== undefined)
    all.push({ at: [knuckle.y, knuckle.z], place: knuckle.place, line: 'the chine', isKnuckle: true });
  else if (knuckle) faults.push({ words: 'the chine needs a half-breadth and a height', place: knuckle.place });
  if (sheer?.z !== undefined && sheer.y !== undefined)
    all.push({ at: [sheer.y, sheer.z], place: sheer.place, line: 'the sheer', isKnuckle: false });
  else if (sheer) faults.push({ words: 'the sheer needs a half-breadth and a height', place: sheer.place });
  for (const { at, place, line } of all) {
    if (keel?.z !== undefined && at[1] < keel.z - SAME_M && at[0] > SAME_M)
      faults.push({ words: `${line} at height ${mm(at[1])} lies below the keel, ${mm(keel.z)}`, place });
    if (sheer?.z !== undefined && at[1] > sheer.z + SAME_M)
      faults.push({ words: `${line} at height ${mm(at[1])} lies above the sheer, ${mm(sheer.z)}`, place });
  }
  // Below the keel a half-breadth of 0 says only that the boat is not there.
  const kept = all
    .filter(({ at }) => keel?.z === undefined || at[1] >= keel.z - SAME_M)
    .sort((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0]);
  const once = kept.filter(({ at }, i) => {
    const before = kept[i - 1]?.at;
    return !before || portable.hypot(at[0] - before[0], at[1] - before[1]) > SAME_M;
  });
  turnsBack(once, faults);
  return {
    points: once.map(({ at }) => at),
    places: once.map(({ place }) => place),
    knuckles: once.flatMap(({ isKnuckle }, i) => (isKnuckle ? [i] : [])),
    faults,
  };
}

/** Lines that contradict each other: the section goes in and out again between a waterline and a buttock. */
function turnsBack(
  points: readonly { readonly at: Vec2; readonly place: TablePlace; readonly line: string }[],
  faults: StationFault[],
): void {
  for (let i = 1; i + 1 < points.length; i += 1) {
    const [before, own, after] = [points[i - 1], points[i], points[i + 1]];
    if (!before || !own || !after) continue;
    const isIn = before.at[0] - own.at[0] > TURN_BACK_M && after.at[0] - own.at[0] > TURN_BACK_M;
    const isOther = before.line !== own.line && kindOf(before.line) !== kindOf(own.line);
    if (isIn && (isOther || kindOf(after.line) !== kindOf(own.line)))
      faults.push({
        words: `${own.line} at ${mm(own.at[0])}, ${mm(own.at[1])} contradicts ${before.line} and ${after.line}: the section would cross itself`,
        place: own.place,
      });
  }
}

const kindOf = (line: string): string => line.trim().charAt(0).toLowerCase();
