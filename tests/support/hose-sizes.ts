import type { Draft } from './scene-interior';

/** Outside diameter and least radius of the centre line, millimetres. */
export type HoseSize = readonly [outMm: number, radiusMm: number];

export const STIFF: readonly HoseSize[] = [
  [18, 130],
  [19, 140],
  [26, 150],
  [34, 170],
  [38, 200],
];
export const isStiff = ([, r]: HoseSize): boolean => r >= 130;
/** Of a stiff hose's fitting, from its mouth, metres. */
export const STIFF_END_M = 0.06;

/** Kinds of hose by their sizes, `k18-130`: round radii are of the centre line, others of the inside of the bend. */
export const hoseKinds = (sizes: readonly HoseSize[]): Draft<'lineKinds'> =>
  Object.fromEntries(
    sizes.map((size) => {
      const [out, r] = size;
      const isRound = r % 50 === 0;
      return [
        `k${out}-${r}`,
        {
          name: `hose ${out} R ${r}`,
          what: 'hose' as const,
          outsideM: out / 1000,
          bendRadiusM: r / 1000 - (isRound ? 0 : out / 2000),
          radiusTo: isRound ? ('centreline' as const) : ('inside' as const),
          ...(isStiff(size) ? { end: { rigidM: STIFF_END_M, diameterM: out / 1000 + 0.006 } } : {}),
        },
      ];
    }),
  );
