import { add, scale, type Vec3 } from '../../../base/vec';
import { LIVING_SPACES } from '../../../boat/kinds';
import type { Opening } from '../../../boat/schema/boat';
import type { HullSurface } from '../../../shape/hull/types';
import { joinedSpaces } from '../../../shape/layout/joined-spaces';
import { bounds } from '../../../shape/layout/prism';
import type { Layout } from '../../../shape/layout/types';
import { ClearRoom } from '../../../shape/space/carrying/clear-room';
import { toFrame, type WayFrame, wayFrame } from '../../../shape/space/carrying/way-frame';
import { type Obstruction, openedWalls } from '../../../shape/space/opened-walls';
import type { Solid } from '../../../shape/space/solids';
import { openingFrame } from '../../../shape/space/ways-in';

/** Room before the outermost opening that counts: a part is turned there, and stands against what faces it (metres). */
const BEFORE_M = 1.6;
/** A wall of a compartment off the way counts where all of it lies before the outermost opening (metres). */
const BEHIND_M = 1e-3;
/** A part is shifted aside before an opening by no more than this (metres). */
const BESIDE_M = 0.3;

/** An opening on the way, as whoever carries something in meets it: its normal points back to where they stand. */
export interface Passed {
  readonly id: string;
  readonly opening: Opening;
  /** The record as it is drawn. */
  readonly drawn: Opening;
  /** Compartment that it leads into. */
  readonly into: string;
  /** Compartment that it leads out of, or 'outside' or 'undrawn'. */
  readonly from: string;
}

/** A way in as it is carried: openings from the outermost, and every compartment that it leads through. */
export interface CarriedWay {
  readonly passed: readonly Passed[];
  readonly through: ReadonlySet<string>;
}

/** The openings in their order, each turned as it is met; null where they do not lead to the compartment one after the other. */
export function carriedWay(
  layout: Layout,
  openings: Readonly<Record<string, Opening>>,
  ids: readonly string[],
  compartment: string,
): CarriedWay | null {
  const passed: Passed[] = [];
  let here = joinedSpaces(layout, [compartment]);
  const through = new Set(here);
  for (const id of [...ids].reverse()) {
    const drawn = openings[id];
    if (!drawn) return null;
    const isOut = here.has(drawn.compartment);
    if (!isOut && !here.has(drawn.to)) return null;
    const from = isOut ? drawn.to : drawn.compartment;
    const opening = isOut ? drawn : { ...drawn, normal: minus(drawn.normal), up: [...openingFrame(drawn).up] };
    passed.unshift({ id, opening: opening as Opening, drawn, into: isOut ? drawn.compartment : drawn.to, from });
    here = joinedSpaces(layout, [from]);
    for (const one of here) through.add(one);
  }
  return { passed, through };
}

const minus = ([x, y, z]: readonly [number, number, number]): [number, number, number] => [-x + 0, -y + 0, -z + 0];

/** Where a way leads and what bounds it. */
export interface WayAround {
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  readonly kindOf: (compartment: string) => string;
}

interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
}

const boxAround = (points: readonly Vec3[]): Box => {
  const [low, high] = bounds(points);
  return { low, high };
};

/** Box about the compartments of a way in which nobody stands; about its openings where there are none. */
function innerBounds({ passed, through }: CarriedWay, { layout, kindOf }: WayAround): Box {
  const stands = passed[0]?.from ?? '';
  const corners = [...through]
    .filter((id) => id !== stands && !LIVING_SPACES.has(kindOf(id)))
    .flatMap((id) => (layout.cellsOf[id] ?? []).flatMap((index) => layout.cells[index] ?? []))
    .flatMap(({ low, high }) => [low, high]);
  return boxAround([...corners, ...passed.map(({ opening }): Vec3 => [...opening.at])]);
}

/** Box about a way: its compartments, and the room before the outermost opening. */
export function boundsOfWay(way: CarriedWay, around: WayAround): Box {
  const { low, high } = innerBounds(way, around);
  const [x, y, z] = way.passed[0]?.opening.at ?? low;
  return boxAround([low, high, [x - BEFORE_M, y - BEFORE_M, z - BEFORE_M], [x + BEFORE_M, y + BEFORE_M, z + BEFORE_M]]);
}

/** One opening of a way with what stands about it, in its own frame. */
export interface Stage {
  readonly passed: Passed;
  readonly frame: WayFrame;
  readonly room: ClearRoom;
  /** Where the middle of a body may be, in the frame. */
  readonly low: Vec3;
  readonly high: Vec3;
}

/** The room of one way, kept for every part and place that is asked about it. */
export class WayRoom {
  readonly bounds: Box;
  private readonly obstructions: readonly Obstruction[];
  private readonly rooms = new Map<string, Stage>();
  private roundOut: readonly Obstruction[] | null = null;

  constructor(
    readonly way: CarriedWay,
    readonly around: WayAround,
    /** What stands about the way and is not moved: without runs, service spaces and what is carried. */
    readonly solids: readonly Solid[],
  ) {
    this.bounds = boundsOfWay(way, around);
    this.obstructions = [
      ...this.walls(1),
      ...solids.map((solid) => ({ owner: solid.owner, label: solid.label, solid })),
    ];
  }

  /** Walls with the openings of the way open; round ones larger by the factor. */
  private walls(roundBy: number): readonly Obstruction[] {
    const { layout } = this.around;
    const { passed, through } = this.way;
    const { low, high } = this.bounds;
    const opened = Object.fromEntries(
      passed.map(({ id, drawn }) => [
        id,
        drawn.shape === 'round'
          ? { ...drawn, widthM: drawn.widthM * roundBy, heightM: drawn.heightM * roundBy }
          : drawn,
      ]),
    );
    const first = passed[0]?.opening;
    const out = first ? openingFrame(first).out : null;
    return openedWalls(layout, opened, low, high).filter(({ owner, solid }) => {
      const sides = layout.panels[owner]?.between ?? [owner];
      if (solid.type !== 'plate' || sides.some((one) => through.has(one))) return true;
      return (
        first !== undefined &&
        out !== null &&
        solid.polygon.every(
          (p) =>
            (p[0] - first.at[0]) * out[0] + (p[1] - first.at[1]) * out[1] + (p[2] - first.at[2]) * out[2] >= -BEHIND_M,
        )
      );
    });
  }

  /** What stands at an opening of the way; `goal`: where the part is to go, which tells the side that the frame looks to. */
  stage(index: number, goal: Vec3, emptied = false): Stage {
    const passed = this.way.passed[index] as Passed;
    const frame = wayFrame(passed.opening, goal, this.marks());
    const key = `${index} ${frame.axes[0].join(' ')} ${emptied}`;
    const known = this.rooms.get(key);
    if (known) return known;
    const obstructions = emptied
      ? this.obstructions.slice(0, this.obstructions.length - this.solids.length)
      : this.obstructions;
    const stage = this.stageWith(passed, frame, obstructions, index === 0);
    this.rooms.set(key, stage);
    return stage;
  }

  /** The outermost opening with round ones no smaller than they are, for what is to be proved impossible. */
  forProof(goal: Vec3): Stage {
    const passed = this.way.passed[0] as Passed;
    const frame = wayFrame(passed.opening, goal, this.marks());
    const key = `proof ${frame.axes[0].join(' ')}`;
    const known = this.rooms.get(key);
    if (known) return known;
    this.roundOut ??= [
      ...this.walls(AROUND_ROUND),
      ...this.obstructions.slice(this.obstructions.length - this.solids.length),
    ];
    const stage = this.stageWith(passed, frame, this.roundOut, true);
    this.rooms.set(key, stage);
    return stage;
  }

  private marks(): readonly Vec3[] {
    return this.solids.map((solid) => (solid.type === 'box' ? solid.centre : scale(add(solid.from, solid.to), 0.5)));
  }

  private stageWith(passed: Passed, frame: WayFrame, obstructions: readonly Obstruction[], isFirst: boolean): Stage {
    const { hull } = this.around;
    // Where nobody would say that they are inside the hull, it bounds only what is.
    const isOutside = isFirst && passed.from === 'outside';
    const room = new ClearRoom(obstructions, frame, hull, isOutside);
    const { low, high } = this.stageBounds(passed, frame);
    return { passed, frame, room, low, high };
  }

  /** In the frame: the compartments on the way, and the room before this opening. */
  private stageBounds({ opening }: Passed, frame: WayFrame): Box {
    const { low, high } = innerBounds(this.way, this.around);
    const corners = [low[0], high[0]].flatMap((x) =>
      [low[1], high[1]].flatMap((y) => [low[2], high[2]].map((z) => toFrame(frame, [x, y, z]))),
    );
    const beside: Vec3 = [opening.widthM / 2 + BESIDE_M, opening.heightM / 2 + BESIDE_M, BEFORE_M];
    const box = boxAround([...corners, beside, [-beside[0], -beside[1], 0]]);
    return { low: box.low, high: [box.high[0], box.high[1], BEFORE_M] };
  }
}

/** A polygon of 32 sides about a round opening instead of within it: 1 / cos(180 / 32 degrees), rounded up. */
const AROUND_ROUND = 1.00485;
