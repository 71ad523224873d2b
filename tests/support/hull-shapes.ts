import type { Hull } from '@core/boat/schema/boat';

/** Hulls of known form as tables of offsets. No real boat stands behind any of them. */
export type Offsets = { readonly xM: number; readonly points: [number, number][]; readonly knuckles?: number[] };

export function hullOf(stations: readonly Offsets[], more: Partial<Hull> = {}): Hull {
  return {
    stations: Object.fromEntries(
      stations.map(({ xM, points, knuckles }, i) => [
        `s${String(i).padStart(3, '0')}`,
        { xM, points, ...(knuckles ? { knuckles } : {}) },
      ]),
    ),
    grade: 'taped',
    measuredTo: 'outside',
    shellM: 0,
    liningM: 0,
    offsetM: 0,
    sheerIsDeck: true,
    ...more,
  };
}

export const evenly = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => (i === count - 1 ? to : from + ((to - from) * i) / (count - 1)));

/** Box of length l, beam b, bottom at -t, sheer at `top`. */
export const box = (l: number, b: number, t: number, top = 1, stations = 2, marked = true): Hull =>
  hullOf(
    evenly(0, l, stations).map((xM) => ({
      xM,
      points: [
        [0, -t],
        [b / 2, -t],
        [b / 2, top],
      ],
      ...(marked ? { knuckles: [1] } : {}),
    })),
  );

/** V section of beam b at draught t, its sides going on straight to `top`. */
export const vPrism = (l: number, b: number, t: number, top: number, stations = 2): Hull =>
  hullOf(
    evenly(0, l, stations).map((xM) => ({
      xM,
      points: [
        [0, -t],
        [((b / 2) * (t + top)) / t, top],
      ],
    })),
  );

/** Wall-sided wedge: apex at x = 0, beam b at x = l. */
export const wedge = (l: number, b: number, t: number, top = 1, stations = 2, levels = 2): Hull =>
  hullOf(
    evenly(0, l, stations).map((xM) => ({
      xM,
      points: [[0, -t], ...evenly(-t, top, levels).map((z): [number, number] => [(b / 2) * (xM / l), z])],
      knuckles: [1],
    })),
  );

/** Circular section of radius r about z = 0, drawn from the keel through `degrees` of arc. */
export const circular = (l: number, r: number, points: number, degrees = 90, stations = 2): Hull =>
  hullOf(
    evenly(0, l, stations).map((xM) => ({
      xM,
      points: evenly(0, (degrees * Math.PI) / 180, points).map((angle): [number, number] => [
        r * Math.sin(angle),
        -r * Math.cos(angle),
      ]),
    })),
  );

/** Half ellipsoid with half axes a, b, c, both ends a point; stations at cosine spacing, or evenly spaced. */
export const halfEllipsoid = (a: number, b: number, c: number, stations: number, points: number, even = false): Hull =>
  hullOf(
    evenly(0, Math.PI, stations).map((cosine, i) => {
      const angle = even ? Math.acos(1 - (2 * i) / (stations - 1)) : cosine;
      const share = i === 0 || i === stations - 1 ? 0 : Math.sin(angle);
      return {
        xM: -a * Math.cos(angle),
        points: evenly(0, Math.PI / 2, points).map((q): [number, number] => [
          b * share * Math.sin(q),
          -c * share * Math.cos(q),
        ]),
      };
    }),
  );

/** y = B/2 (1 - (2x/L)^2) (1 - (z/T)^2) below z = 0, upright above it to `top`; x from the aft end. */
export function wigley(l: number, b: number, t: number, stations: number, levels: number, top = 0): Hull {
  return hullOf(
    evenly(0, l, stations).map((xM) => {
      const along = 1 - ((2 * xM) / l - 1) ** 2;
      const points = evenly(-t, 0, levels).map((z): [number, number] => [(b / 2) * along * (1 - (z / t) ** 2), z]);
      if (top <= 0) return { xM, points };
      return { xM, points: [...points, [(b / 2) * along, top]], knuckles: [levels - 1] };
    }),
  );
}

/** y = B/2 sin(pi x / L) (1 - (z/T)^4): curved along and across by what no cubic holds. */
export const sineHull = (l: number, b: number, t: number, stations: number, levels: number): Hull =>
  hullOf(
    evenly(0, l, stations).map((xM, i) => {
      const along = i === 0 || i === stations - 1 ? 0 : Math.sin((Math.PI * xM) / l);
      return {
        xM,
        points: evenly(-t, 0, levels).map((z): [number, number] => [(b / 2) * along * (1 - (z / t) ** 4), z]),
      };
    }),
  );

/** Long keel with wineglass sections, a keel trunk 0.22 m wide, raked stem, transom: hollow garboards are reflex from inside. */
export function wineglass(l = 11, stations = 15): Hull {
  return hullOf(
    evenly(0, l, stations).map((xM, i) => {
      const u = xM / l;
      const last = i === stations - 1;
      const sheer = 1.05 + 0.5 * (u - 0.35) ** 2;
      const beam = 1.65 * (1 - Math.max(0, (u - 0.42) / 0.58) ** 2.4) * (1 - 0.3 * Math.max(0, (0.42 - u) / 0.42) ** 2);
      if (last)
        return {
          xM,
          points: [
            [0, sheer - 0.2],
            [0, sheer],
          ],
        };
      const keel = -1.6 + 1.5 * Math.max(0, (u - 0.5) / 0.5) ** 2 + 0.9 * Math.max(0, (0.15 - u) / 0.15);
      const trunk = Math.min(0.11, beam / 3);
      const tuck = keel + 0.5 * (sheer - keel) * 0.55;
      return {
        xM,
        points: [
          [0, keel],
          [trunk, keel],
          [trunk, tuck - 0.12],
          [Math.min(trunk * 1.25, beam * 0.4), tuck],
          [beam * 0.42, tuck + 0.16 * (sheer - tuck)],
          [beam * 0.8, tuck + 0.36 * (sheer - tuck)],
          [beam * 0.97, tuck + 0.62 * (sheer - tuck)],
          [beam, sheer],
        ],
        knuckles: [1],
      };
    }),
  );
}

/** Convex canoe body without a keel trunk: no reflex edge but those of rounding. */
export function canoe(l = 10, stations = 13): Hull {
  return hullOf(
    evenly(0, l, stations).map((xM) => {
      const share = Math.max(0, 1 - (xM / l - 0.5) ** 2 * 4);
      const depth = 0.6 + 0.6 * share;
      return {
        xM,
        points: evenly(0, Math.PI / 2, 9).map((q): [number, number] => [
          1.5 * share * Math.sin(q) ** 0.8,
          0.9 - depth * Math.cos(q) ** 1.2,
        ]),
      };
    }),
  );
}
