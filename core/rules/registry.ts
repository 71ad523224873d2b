import { overlap } from './access/overlap';
import { serviceSpace } from './access/service-space';
import { wayIn } from './access/way-in';
import type { Rule } from './define';
import { compartmentOverlap } from './hull/compartment-overlap';
import { panelRecord } from './hull/panel-record';
import { seacock } from './hull/seacock';
import { motorVoltage } from './power/motor-voltage';
import { nearCompass } from './power/near-compass';
import { signalApart } from './power/signal-apart';
import { blocked } from './runs/blocked';
import { inTheWay } from './runs/in-the-way';
import { nearHeat } from './runs/near-heat';
import { pinned } from './runs/pinned';
import { suppliedLength } from './runs/supplied-length';
import { twist } from './runs/twist';
import { unsupported } from './runs/unsupported';
import { drainFall } from './water/drain-fall';
import { filterOrder } from './water/filter-order';
import { loopRise } from './water/loop-rise';
import { overElectrics } from './water/over-electrics';
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
  overElectrics,
  nearHeat,
  loopRise,
  drainFall,
  nearCompass,
  signalApart,
  inTheWay,
  unsupported,
];
