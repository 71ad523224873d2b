/**
 * Shortest plane curve of bounded curvature between two headings: the least of six words of arcs and straights.
 * Source: L. E. Dubins, American Journal of Mathematics 79 (1957); the closed forms in the normalised frame follow
 * A. M. Shkel and V. Lumelsky, Robotics and Autonomous Systems 34 (2001). Unit radius; from [0, 0] heading a to [d, 0] heading b.
 */
export type DubinsWord = 'LSL' | 'RSR' | 'LSR' | 'RSL' | 'RLR' | 'LRL';
export const DUBINS_WORDS: readonly DubinsWord[] = ['LSL', 'RSR', 'LSR', 'RSL', 'RLR', 'LRL'];

const turn = (x: number): number => {
  const r = x % (2 * Math.PI);
  return r < 0 ? r + 2 * Math.PI : r;
};
const SHAPES: Record<DubinsWord, readonly [number, number, number]> = {
  LSL: [1, 0, 1],
  RSR: [-1, 0, -1],
  LSR: [1, 0, -1],
  RSL: [-1, 0, 1],
  RLR: [-1, 1, -1],
  LRL: [1, -1, 1],
};

/** The three lengths of a word, or null where it does not exist. */
export function dubinsWord(
  word: DubinsWord,
  a: number,
  b: number,
  d: number,
): readonly [number, number, number] | null {
  const [sa, sb, ca, cb, cab] = [Math.sin(a), Math.sin(b), Math.cos(a), Math.cos(b), Math.cos(a - b)];
  switch (word) {
    case 'LSL': {
      const p = 2 + d * d - 2 * cab + 2 * d * (sa - sb);
      if (p < 0) return null;
      const t = Math.atan2(cb - ca, d + sa - sb);
      return [turn(t - a), Math.sqrt(p), turn(b - t)];
    }
    case 'RSR': {
      const p = 2 + d * d - 2 * cab + 2 * d * (sb - sa);
      if (p < 0) return null;
      const t = Math.atan2(ca - cb, d - sa + sb);
      return [turn(a - t), Math.sqrt(p), turn(t - b)];
    }
    case 'LSR': {
      const p = -2 + d * d + 2 * cab + 2 * d * (sa + sb);
      if (p < 0) return null;
      const l = Math.sqrt(p);
      const t = Math.atan2(-ca - cb, d + sa + sb) - Math.atan2(-2, l);
      return [turn(t - a), l, turn(t - b)];
    }
    case 'RSL': {
      const p = -2 + d * d + 2 * cab - 2 * d * (sa + sb);
      if (p < 0) return null;
      const l = Math.sqrt(p);
      const t = Math.atan2(ca + cb, d - sa - sb) - Math.atan2(2, l);
      return [turn(a - t), l, turn(b - t)];
    }
    case 'RLR': {
      const c = (6 - d * d + 2 * cab + 2 * d * (sa - sb)) / 8;
      if (Math.abs(c) > 1) return null;
      const p = turn(2 * Math.PI - Math.acos(c));
      const t = turn(a - Math.atan2(ca - cb, d - sa + sb) + p / 2);
      return [t, p, turn(a - b - t + p)];
    }
    case 'LRL': {
      const c = (6 - d * d + 2 * cab + 2 * d * (sb - sa)) / 8;
      if (Math.abs(c) > 1) return null;
      const p = turn(2 * Math.PI - Math.acos(c));
      const t = turn(-a + Math.atan2(-ca + cb, d + sa - sb) + p / 2);
      return [t, p, turn(b - a - t + p)];
    }
  }
}

/** Where a word ends, drawn piece by piece: [x, y, heading]. */
export function dubinsEnd(word: DubinsWord, lengths: readonly number[], a: number): readonly [number, number, number] {
  let [x, y, h] = [0, 0, a];
  SHAPES[word].forEach((bend, k) => {
    const s = lengths[k] as number;
    if (bend === 0) {
      x += s * Math.cos(h);
      y += s * Math.sin(h);
      return;
    }
    x += bend * (Math.sin(h + bend * s) - Math.sin(h));
    y += bend * (Math.cos(h) - Math.cos(h + bend * s));
    h += bend * s;
  });
  return [x, y, h];
}

/** The shortest word and its length. */
export function dubins(a: number, b: number, d: number): { readonly word: DubinsWord; readonly length: number } {
  let best: { word: DubinsWord; length: number } | null = null;
  for (const word of DUBINS_WORDS) {
    const pieces = dubinsWord(word, a, b, d);
    if (!pieces) continue;
    const length = pieces[0] + pieces[1] + pieces[2];
    if (!best || length < best.length) best = { word, length };
  }
  if (!best) throw new Error(`dubins: expected a word from ${a} to ${b} at ${d}`);
  return best;
}
