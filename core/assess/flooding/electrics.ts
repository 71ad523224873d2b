import type { Thing } from '../../boat/schema/boat';

/** Things that are electric whether or not the boat file says so. */
const ELECTRIC: ReadonlySet<string> = new Set(['battery', 'inverterCharger', 'dcPanel', 'busbar', 'fuse', 'breaker']);

/**
 * Whether water about a thing harms it: what is open, drip-proof, or of which nobody says how well it stands water. A bilge pump is made for
 * it unless somebody says otherwise.
 */
export function isHarmedByWater({ kind, electric }: Pick<Thing, 'kind' | 'electric'>): boolean {
  if (electric?.dripProof) return electric.dripProof !== 'sealed';
  if (kind === 'bilgePump') return false;
  return ELECTRIC.has(kind) || electric?.drawA !== undefined || electric?.sourceV !== undefined;
}
