import { primLength } from './routing/prims';
import type { Prim } from './routing/types';

/** How far a run goes straight from one of its ends before it first bends, metres; all of it where it never bends. */
export function straightFrom(prims: readonly Prim[], end: 'from' | 'to'): number {
  const ordered = end === 'from' ? prims : [...prims].reverse();
  let lengthM = 0;
  for (const prim of ordered) {
    if (prim.kind === 'arc') return lengthM;
    lengthM += primLength(prim);
  }
  return lengthM;
}
