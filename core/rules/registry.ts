import { overlap } from './access/overlap';
import { serviceSpace } from './access/service-space';
import { wayIn } from './access/way-in';
import type { Rule } from './define';
import { compartmentOverlap } from './hull/compartment-overlap';
import { panelRecord } from './hull/panel-record';
import { seacock } from './hull/seacock';
import { motorVoltage } from './power/motor-voltage';
import { blocked } from './runs/blocked';
import { pinned } from './runs/pinned';
import { suppliedLength } from './runs/supplied-length';
import { twist } from './runs/twist';
import { filterOrder } from './water/filter-order';
import { suctionCrest } from './water/suction-crest';

/** Every check there is, in the order in which findings of one severity are listed. */
export const RULES: readonly Rule[] = [
  blocked,
  pinned,
  suppliedLength,
  twist,
  overlap,
  wayIn,
  serviceSpace,
  suctionCrest,
  filterOrder,
  seacock,
  compartmentOverlap,
  panelRecord,
  motorVoltage,
];
