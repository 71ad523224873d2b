/** Judges places in a locker by its section alone: shares nothing with the search that it checks. */

/** Depth of the room at a height: the outboard side is straight from `bottom` at 0 to `top` at `height`. */
export interface PlainLocker {
  readonly length: number;
  readonly height: number;
  readonly bottom: number;
  readonly top: number;
}

const depthAt = (locker: PlainLocker, z: number): number =>
  locker.bottom + ((locker.top - locker.bottom) * z) / locker.height;

/**
 * Greatest growth of a box that stands square to the locker in any of its six ways, by trying every foot height in steps: at each height the
 * box may grow until its narrowest depth, its length or its height is used up. Lower than the truth by no more than the step.
 */
export function squareGrowth(locker: PlainLocker, sides: readonly [number, number, number], step: number): number {
  const [a, b, c] = sides;
  const ways: readonly (readonly [number, number, number])[] = [
    [a, b, c],
    [a, c, b],
    [b, a, c],
    [b, c, a],
    [c, a, b],
    [c, b, a],
  ];
  return Math.max(...ways.map((way) => growthOf(locker, way, step)));
}

function growthOf(locker: PlainLocker, [along, deep, tall]: readonly [number, number, number], step: number): number {
  let most = Number.NEGATIVE_INFINITY;
  // With a foot at z the room is as deep as at the lower or the higher edge; growth g takes the higher edge up by g.
  for (let foot = 0; foot <= locker.height; foot += step) {
    let low = -Math.min(along, deep, tall);
    let high = 2;
    for (let k = 0; k < 40; k++) {
      const g = (low + high) / 2;
      const head = foot + tall + g;
      const isIn =
        along + g <= locker.length &&
        head <= locker.height &&
        deep + g <= Math.min(depthAt(locker, foot), depthAt(locker, head));
      if (isIn) low = g;
      else high = g;
    }
    most = Math.max(most, low);
  }
  return most;
}

type P3 = readonly [number, number, number];

/** How far the outermost of points stands outside the locker, x from its aft end, depth from its inboard side, z from its bottom. */
export function outsideBy(locker: PlainLocker, points: readonly P3[]): number {
  const slope = (locker.top - locker.bottom) / locker.height;
  const square = Math.hypot(1, slope);
  return Math.max(
    ...points.flatMap(([x, y, z]) => [
      -x,
      x - locker.length,
      -y,
      -z,
      z - locker.height,
      (y - depthAt(locker, z)) / square,
    ]),
  );
}
