import type { Thing } from '../../boat/schema/boat';
import { isOpenToWater } from '../../runs/routing/wishes/zones';

/**
 * Whether water about a thing harms it: what is open, by its own word or by what it is, or drip-proof. Of a motor of which nobody says how
 * well it stands water nothing is told; a bilge pump is made for it unless somebody says otherwise.
 */
export const isHarmedByWater = ({ kind, electric }: Pick<Thing, 'kind' | 'electric'>): boolean =>
  electric?.dripProof
    ? electric.dripProof !== 'sealed'
    : kind !== 'bilgePump' && isOpenToWater({ kind, electric }) === true;
