import { dot, type Vec3 } from '../../base/vec';
import type { Task } from './attempt';
import type { HoseClass } from './nodes';
import { type Penalty, Search } from './search';
import type { Stop, StretchEnd } from './stretch';
import type { Mark } from './waypoints';

/** Where a look begins, and as how stiff a hose. */
export interface LookKind {
  readonly isBackward: boolean;
  /** Times the least bend radius: as a stiffer hose the search keeps farther from corners. */
  readonly stiffness: number;
  /** How boldly it looks ahead; with 1 it finds the cheapest way of the graph. */
  readonly guideWeight: number;
  /** Whether it looks into gaps that leave next to nothing beside the hose. */
  readonly isNarrow?: boolean;
}

/** One way of looking for a way: a search along each stretch of the line, with a memory of what was made dear. */
export class Look {
  private readonly searches: readonly Search[];

  constructor(
    task: Task,
    marks: readonly Mark[],
    isAllowed: (cell: number) => boolean,
    readonly kind: LookKind,
  ) {
    const { world, line } = task;
    // Where the length binds, it alone is made small: holes and crests count for nothing.
    const isLimited = line.lengthLimitM !== undefined;
    const suction = line.suction && !isLimited ? { up: world.view.up } : null;
    const hose: HoseClass = { ...task.hose, bendRadiusM: kind.stiffness * task.hose.bendRadiusM };
    const ends = kind.isBackward ? [...marks].reverse().map(turned) : marks;
    // Of several stretches the one that begins and ends highest is led up.
    const heights = ends
      .slice(0, -1)
      .map(({ depart }, k) => dot(depart.at, world.view.up) + dot((ends[k + 1] as Mark).arrive.at, world.view.up));
    const highest = heights.indexOf(Math.max(...heights));
    this.searches = ends.slice(0, -1).map(
      ({ depart }, k) =>
        new Search(world, hose, depart, (ends[k + 1] as Mark).arrive, isAllowed, suction, isLimited ? 0 : 1, {
          isBackward: kind.isBackward,
          mustRise: k === highest,
          isThorough: kind.guideWeight === 1,
          isNarrow: kind.isNarrow ?? false,
        }),
    );
    for (const place of line.dear ?? []) this.penalise(place);
  }

  /** Of the places reached in the stretch that failed, the one nearest to its goal. */
  stuckAt: Vec3 | null = null;

  /** The stops of every stretch in the order of the line; null where there is none within the budget. */
  *stops(pops: number): Generator<number, readonly (readonly Stop[])[] | null> {
    const stretches: (readonly Stop[])[] = [];
    for (const search of this.searches) {
      const found = yield* search.run(pops, this.kind.guideWeight);
      if (!found) {
        this.stuckAt ??= search.farthest;
        return null;
      }
      stretches.push(found);
    }
    return this.kind.isBackward ? stretches.reverse().map((stops) => [...stops].reverse().map(passedBack)) : stretches;
  }

  penalise(penalty: Penalty): void {
    for (const search of this.searches) search.penalise(penalty);
  }
}

const turned = ({ arrive, depart, between }: Mark): Mark => ({
  arrive: turnedEnd(depart),
  depart: turnedEnd(arrive),
  between,
});

const turnedEnd = (end: StretchEnd): StretchEnd => ({
  ...end,
  direction: end.direction && [-end.direction[0], -end.direction[1], -end.direction[2]],
});

const passedBack = (stop: Stop): Stop => (stop.kind === 'free' ? stop : { ...stop, forward: !stop.forward });
