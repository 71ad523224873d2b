import type { LineCount, SceneCount } from './suite-count';

/** A line counts when a run of it is known: by construction, by the deep search or by the grid. */
const isCounted = (line: LineCount): boolean => line.plant !== null || line.deep !== null || line.grid !== null;

/** Lines by the least radius of their centre line, millimetres. */
export const RADIUS_CLASSES = [
  ['<= 50', (r: number) => r <= 50],
  ['75-100', (r: number) => r > 50 && r < 130],
  ['>= 130', (r: number) => r >= 130],
] as const;
/** A gap that needs no name: of a cost over its bound, or over the best that is known. */
export const NEAR = 0.02;
/** Of gaps to the bound by class, preferences off and each line alone: the greatest median, the least share that is near. */
export const WANTED_GAPS = { '<= 50': [0.01, 0.75], '75-100': [0.013, 0.68], '>= 130': [0.025, 0.42] } as const;

/** The least cost that is known of a line. */
function bestKnown({ plant, deep, grid }: LineCount): number | null {
  const known = [plant, deep, grid].filter((cost) => cost !== null);
  return known.length > 0 ? Math.min(...known) : null;
}

const share = (some: number, all: number): number => (all > 0 ? some / all : 0);

export function quantile(values: readonly number[], at: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(at * sorted.length))] ?? Number.NaN;
}

/** Figures of a suite, as asked of the router. Shares are of 1. */
export function suiteTable(scenes: readonly SceneCount[]) {
  const all = scenes.flatMap((scene) => scene.lines.map((line) => ({ ...line, seed: scene.seed })));
  const counted = all.filter(isCounted);
  const priced = counted.filter((line) => line.deep !== null);
  const within = (cost: (line: LineCount) => number | null): number =>
    share(
      counted.filter((line) => (cost(line) ?? Number.POSITIVE_INFINITY) <= (1 + NEAR) * (bestKnown(line) ?? 0)).length,
      counted.length,
    );
  const suction = all.filter((line) => line.excessCrest !== null);
  return {
    scenes: scenes.length,
    lines: all.length,
    counted: counted.length,
    rejected: scenes.reduce((sum, scene) => sum + scene.faults.length, 0),
    proofsOnCounted: counted.filter((line) => line.fastProved || line.deepProved).length,
    boundsAbove: all.reduce((sum, line) => sum + line.above.length, 0),
    fastMiss: share(counted.filter((line) => line.fast === null).length, counted.length),
    deepMiss: share(counted.filter((line) => line.deep === null).length, counted.length),
    uncounted: all.length - counted.length,
    uncountedProved: all.filter((line) => !isCounted(line) && line.deepProved).length,
    gridSolves: share(
      counted.filter((line) => line.grid !== null).length,
      counted.filter((line) => !line.isClipped).length,
    ),
    gridBest: share(
      priced.filter((line) => line.grid !== null && line.grid < (line.deep ?? 0) - 1e-6).length,
      priced.length,
    ),
    deepNearBest: within((line) => line.deep),
    fastNearBest: within((line) => line.fastPlain),
    missesByRadius: Object.fromEntries(
      RADIUS_CLASSES.map(([name, isIn]) => {
        const some = counted.filter((line) => isIn(line.radiusMm));
        const miss = (cost: (line: LineCount) => number | null): number =>
          some.filter((line) => cost(line) === null).length;
        return [name, { lines: some.length, fast: miss((line) => line.fast), deep: miss((line) => line.deep) }];
      }),
    ),
    missesByCause: tally(
      counted.filter((line) => line.fast === null || line.deep === null).map((line) => line.reason ?? 'fast alone'),
    ),
    gapAlone: Object.fromEntries(
      RADIUS_CLASSES.map(([name, isIn]) => {
        const gaps = all.flatMap((line) =>
          isIn(line.radiusMm) && line.alone !== null && line.costBound !== null && !line.isClipped
            ? [line.alone / line.costBound - 1]
            : [],
        );
        return [
          name,
          {
            lines: gaps.length,
            median: quantile(gaps, 0.5),
            p90: quantile(gaps, 0.9),
            near: share(gaps.filter((gap) => gap <= NEAR).length, gaps.length),
          },
        ];
      }),
    ),
    suction: {
      lines: suction.length,
      below10mm: share(suction.filter((line) => (line.excessCrest as number) < 0.01).length, suction.length),
      lengthPrice: mean(suction.flatMap((line) => line.crestPrice ?? [])),
    },
    cpuMsPerScene: [0, 1, 2, 3].map((k) => Math.round(mean(scenes.map((scene) => scene.cpuMs[k] ?? 0)))),
  };
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / Math.max(1, values.length);

function tally(words: readonly string[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const word of words) counts[word] = (counts[word] ?? 0) + 1;
  return counts;
}

/** What to look at: lines that the router missed, or for which a run cheaper by more than 2 % is known. */
export function offenders(scenes: readonly SceneCount[]): string[] {
  return scenes.flatMap((scene) =>
    scene.lines.flatMap((line) => {
      const best = bestKnown(line);
      if (best === null) return [];
      const off = (cost: number | null): string =>
        cost === null ? 'none' : `+${((cost / best - 1) * 100).toFixed(1)} %`;
      const isOff = (cost: number | null): boolean => cost === null || cost > (1 + NEAR) * best;
      if (!isOff(line.deep) && line.fast !== null) return [];
      const by = best === line.deep ? 'deep' : best === line.grid ? 'grid' : 'plant';
      return [
        `seed ${scene.seed} ${line.line} R ${line.radiusMm}: best ${best.toFixed(3)} (${by}), fast ${line.fast === null ? 'none' : off(line.fastPlain)}, deep ${off(line.deep)}, ${line.reason ?? ''}`,
      ];
    }),
  );
}
