import * as portable from '../../base/portable';
import { turnedAbout } from '../../base/turning';
import { cross, norm, type Rotation, radians, rotationOf, squareTo, type Turn, unit, type Vec3 } from '../../base/vec';

/** The 24 ways in which a box stands square to the room, the way it is drawn first. */
export const AXIS_TURNS: readonly Turn[] = [
  ...[0, 180, 90, 270].flatMap((yawDeg) => [{ yawDeg, pitchDeg: 0, rollDeg: 0 }]),
  ...[180, 90, 270].flatMap((rollDeg) => [0, 180, 90, 270].map((yawDeg) => ({ yawDeg, pitchDeg: 0, rollDeg }))),
  ...[90, -90].flatMap((pitchDeg) => [0, 180, 90, 270].map((yawDeg) => ({ yawDeg, pitchDeg, rollDeg: 0 }))),
];

/** Whether a thing that must stand upright does, within the tilt that it bears. */
export const standsUpright = (axes: Rotation, tiltDeg: number): boolean =>
  axes[2][2] >= portable.cos(radians(tiltDeg)) - 1e-9;

/** A part laid on its side is further from how it is drawn than one turned on its foot. */
export const turnedness = ({ yawDeg, pitchDeg, rollDeg }: Turn): number =>
  2 * Math.abs(pitchDeg) + 2 * Math.abs(rollDeg) + Math.abs(yawDeg);

/** Axes about which a tilt is tried: those of the boat and halfway between two or three of them. */
const WAYS: readonly Vec3[] = [-1, 0, 1]
  .flatMap((x) => [-1, 0, 1].flatMap((y) => [-1, 0, 1].map((z): Vec3 => [x, y, z])))
  .filter(([x, y, z]) => x > 0 || (x === 0 && (y > 0 || (y === 0 && z > 0))))
  .map(unit);

const FIRST_STEP = radians(12);
const LAST_STEP = radians(0.002);
/** Starts that are followed up: the best by what they leave at once. */
const FOLLOWED = 10;

export interface Tilted {
  readonly axes: Rotation;
  readonly growthM: number;
}

export interface TiltSearch {
  readonly best: Tilted | null;
  readonly starts: number;
  readonly tried: number;
}

/**
 * Looks for the tilt that leaves most room: from the given starts downhill, in ever smaller steps about axes all round. A search, not a proof:
 * a better tilt than the one found may exist. `growthOf` is null for a turn that is not allowed.
 */
export function bestTilt(starts: readonly Rotation[], growthOf: (axes: Rotation) => number | null): TiltSearch {
  let tried = 0;
  const measured = (axes: Rotation): Tilted | null => {
    tried++;
    const growthM = growthOf(axes);
    return growthM === null ? null : { axes, growthM };
  };
  const first = starts
    .map(measured)
    .filter((tilted) => tilted !== null)
    .sort((a, b) => b.growthM - a.growthM)
    .slice(0, FOLLOWED);
  let best: Tilted | null = null;
  for (const start of first) {
    let now = start;
    for (let step = FIRST_STEP; step > LAST_STEP; step /= 2) {
      let isBetter = true;
      while (isBetter) {
        isBetter = false;
        for (const way of WAYS)
          for (const angle of [step, -step]) {
            const next = measured(turnedAbout(now.axes, way, angle));
            if (!next || next.growthM <= now.growthM + 1e-9) continue;
            now = next;
            isBetter = true;
          }
      }
    }
    if (!best || now.growthM > best.growthM + 1e-9) best = now;
  }
  return { best, starts: starts.length, tried };
}

/** Steps of a tilt about one axis, degrees, before the best are refined; and how many are. */
const TILT_STEP_DEG = 5;
const REFINED = 8;

/**
 * Tilts about a single axis of the boat, the best of each square start: what a person does first. Each refined to a hundredth of a degree.
 */
export function singleTilts(
  starts: readonly Rotation[],
  growthOf: (axes: Rotation) => number | null,
): { readonly best: readonly Tilted[]; readonly tried: number } {
  let tried = 0;
  const coarse = starts.flatMap((axes) =>
    ([0, 1, 2] as const).flatMap((k) => {
      const about: Vec3 = [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0];
      const at = (deg: number): Tilted | null => {
        tried++;
        const tilted = turnedAbout(axes, about, radians(deg));
        const growthM = growthOf(tilted);
        return growthM === null ? null : { axes: tilted, growthM };
      };
      let top: { readonly deg: number; readonly growthM: number } | null = null;
      for (let deg = TILT_STEP_DEG; deg < 90; deg += TILT_STEP_DEG)
        for (const signed of [deg, -deg]) {
          const found = at(signed);
          if (found && (!top || found.growthM > top.growthM + 1e-9)) top = { deg: signed, growthM: found.growthM };
        }
      return top ? [{ at, ...top }] : [];
    }),
  );
  const best = coarse
    .sort((a, b) => b.growthM - a.growthM)
    .slice(0, REFINED)
    .flatMap(({ at, deg }) => {
      let now = { deg, found: at(deg) };
      for (let step = TILT_STEP_DEG / 2; step > 0.01; step /= 2)
        for (const next of [now.deg - step, now.deg + step]) {
          const found = at(next);
          if (found && (!now.found || found.growthM > now.found.growthM)) now = { deg: next, found };
        }
      return now.found ? [now.found] : [];
    })
    .sort((a, b) => b.growthM - a.growthM);
  return { best, tried };
}

/** Turns to begin tilting from: square ones a little aslant, and the longest side along every diagonal of the room. */
export function tiltStarts(corners: readonly Vec3[], longestAxis: 0 | 1 | 2): readonly Rotation[] {
  const slanting = AXIS_TURNS.slice(0, 24).flatMap((turn) => {
    const axes = rotationOf(turn);
    return ([0, 1, 2] as const).map((k) =>
      turnedAbout(axes, [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0], radians(30)),
    );
  });
  const diagonals: Vec3[] = [];
  corners.forEach((p, i) => {
    for (const q of corners.slice(i + 1)) {
      const d: Vec3 = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
      if (norm(d) < 1e-6) continue;
      const way = unit(d);
      if (!diagonals.some((known) => norm(cross(known, way)) < 1e-3)) diagonals.push(way);
    }
  });
  const laid = diagonals.flatMap((way) => [0, 45, 90, 135].map((deg) => axesAlong(way, longestAxis, radians(deg))));
  return [...slanting, ...laid];
}

/** Right-handed axes with the named one along `way`, turned about it. */
function axesAlong(way: Vec3, named: 0 | 1 | 2, angle: number): Rotation {
  const second = squareTo(way);
  const third = cross(way, second);
  const cycle = named === 0 ? [way, second, third] : named === 1 ? [third, way, second] : [second, third, way];
  return turnedAbout(cycle as unknown as Rotation, way, angle);
}
