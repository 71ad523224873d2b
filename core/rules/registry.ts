import type { Rule } from './define';
import { seacock } from './hull/seacock';
import { motorVoltage } from './power/motor-voltage';
import { blocked } from './runs/blocked';
import { suppliedLength } from './runs/supplied-length';
import { filterOrder } from './water/filter-order';
import { suctionCrest } from './water/suction-crest';

/** Every rule of the product; a rule that is not here does not exist. */
export const RULES: readonly Rule[] = [seacock, motorVoltage, blocked, suppliedLength, filterOrder, suctionCrest];
