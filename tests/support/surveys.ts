import { randomFrom } from './random';

/** Seeded surveys of twelve points with places that are known to the test alone. Types of the boat file only. */
export interface MadeSurvey {
  readonly survey: {
    readonly points: Record<string, { at?: [number, number, number] }>;
    readonly datums: Record<string, { at: [number, number, number]; axis?: 'x' | 'y' | 'z' }>;
    readonly readings: Record<
      string,
      { from: string; to: string; kind: 'distance' | 'height' | 'offset' | 'diagonal'; valueM: number; grade: Grade }
    >;
  };
  readonly places: Readonly<Record<string, readonly [number, number, number]>>;
  /** Whole number below n, going on in the survey's own row of chances. */
  readonly whole: (n: number) => number;
}
export type Grade = 'measured' | 'taped' | 'scaled' | 'guessed';
/** How the points lie: in a box, near one plane, along the boat in two rows. */
export type Lie = 'boxy' | 'planar' | 'chain';

type Place = [number, number, number];
const KNOWN = {
  bulkhead: [0, 0, -0.5],
  coaming: [4, 1.6, 0],
  mast: [3.8, -1.7, 1.5],
  shelf: [0.2, 1.8, 1.4],
} as const satisfies Readonly<Record<string, Readonly<Place>>>;
const POINTS = 12;
const DECKHEAD_M = 1.9;

export function madeSurvey(
  seed: number,
  lie: Lie,
  { noiseM, grade, neighbours }: { readonly noiseM: number; readonly grade: Grade; readonly neighbours: number },
): MadeSurvey {
  const next = randomFrom(Math.imul(seed, 2654435761));
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
  const places: Record<string, Place> = {};
  for (let i = 0; i < POINTS; i++) {
    places[`p${i}`] =
      lie === 'boxy'
        ? [4 * next(), 3 * next() - 1.5, 1.5 * next()]
        : lie === 'planar'
          ? [4 * next(), 3 * next() - 1.5, 0.3 * next()]
          : [0.35 * i + 0.3 * next(), (i % 2 === 0 ? 1 : -1) * (0.8 + 0.4 * next()), 0.5 * (i % 3) + 0.2 * next()];
  }
  const all: Readonly<Record<string, Readonly<Place>>> = { ...places, ...KNOWN };
  const readings: MadeSurvey['survey']['readings'] = {};
  let count = 0;
  const take = (from: string, to: string, kind: 'distance' | 'height' | 'offset', trueM: number): void => {
    count += 1;
    readings[String(count)] = { from, to, kind, valueM: trueM + noiseM * normal(), grade };
  };
  const far = (a: string, b: string): number => {
    const [p, q] = [all[a] as Readonly<Place>, all[b] as Readonly<Place>];
    return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  };
  const taped = new Set<string>();
  for (const [id, at] of Object.entries(places)) {
    const near = Object.keys(all)
      .filter((other) => other !== id)
      .sort((a, b) => far(id, a) - far(id, b))
      .slice(0, neighbours);
    for (const other of near) {
      const pair = [id, other].sort().join(' ');
      if (taped.has(pair)) continue;
      taped.add(pair);
      take(id, other, 'distance', far(id, other));
    }
    take('sole', id, 'height', at[2]);
    take('centreline', id, 'offset', at[1]);
    // Tapes that lie near one plane say little of heights, and two heights alone cannot tell which of them is off.
    if (lie === 'planar') {
      take('deckhead', id, 'height', at[2] - DECKHEAD_M);
      take('shelf', id, 'height', at[2] - KNOWN.shelf[2]);
    }
  }
  return {
    survey: {
      points: Object.fromEntries(Object.keys(places).map((id) => [id, {}])),
      datums: {
        ...Object.fromEntries(Object.entries(KNOWN).map(([id, at]) => [id, { at: [...at] as Place }])),
        centreline: { at: [0, 0, 0], axis: 'y' },
        sole: { at: [0, 0, 0], axis: 'z' },
        deckhead: { at: [0, 0, DECKHEAD_M], axis: 'z' },
      },
      readings,
    },
    places,
    whole: (n) => Math.min(n - 1, Math.floor(next() * n)),
  };
}
