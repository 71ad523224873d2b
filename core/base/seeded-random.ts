/**
 * Uniform numbers in [0, 1) that follow from a text alone: FNV-1a over its characters starts mulberry32 (both in the public domain).
 * Whole-number arithmetic, so the same on every machine.
 */
export function seededRandom(seed: string): () => number {
  let state = 0x811c9dc5;
  for (let k = 0; k < seed.length; k += 1) state = Math.imul(state ^ seed.charCodeAt(k), 0x01000193);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
