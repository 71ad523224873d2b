import { holdDown } from './access/hold-down';
import { level } from './access/level';
import { lift } from './access/lift';
import { noiseNearBerth } from './access/noise-near-berth';
import { overlap } from './access/overlap';
import { seacockHandle } from './access/seacock-handle';
import { serviceSpace } from './access/service-space';
import { serviceTask } from './access/service-task';
import { servicesTaken } from './access/services-taken';
import { wayIn } from './access/way-in';
import { wayOut } from './access/way-out';
import type { Rule } from './define';
import { bowlSpill } from './flooding/bowl-spill';
import { dripOnElectrics } from './flooding/drip-on-electrics';
import { greenWater } from './flooding/green-water';
import { jointLetsGo } from './flooding/joint-lets-go';
import { outletImmersed } from './flooding/outlet-immersed';
import { pumpedAboard } from './flooding/pumped-aboard';
import { siphon } from './flooding/siphon';
import { compartmentOverlap } from './hull/compartment-overlap';
import { mounting } from './hull/mounting';
import { newHole } from './hull/new-hole';
import { panelRecord } from './hull/panel-record';
import { screwLength } from './hull/screw-length';
import { seacock } from './hull/seacock';
import { throughHullSound } from './hull/through-hull-sound';
import { batteryPlace } from './power/battery-place';
import { cableSupport } from './power/cable-support';
import { compassParts } from './power/compass-parts';
import { conductorSize } from './power/conductor-size';
import { cool } from './power/cool';
import { dataSheet } from './power/data-sheet';
import { dayPowerBudget } from './power/day-budget';
import { fuseDistance } from './power/fuse-distance';
import { fuseInterrupts } from './power/fuse-interrupts';
import { fuseSize } from './power/fuse-size';
import { ignition } from './power/ignition';
import { isolator } from './power/isolator';
import { mains } from './power/mains';
import { motorVoltage } from './power/motor-voltage';
import { nearCompass } from './power/near-compass';
import { signalApart } from './power/signal-apart';
import { bendAtFitting } from './runs/bend-at-fitting';
import { blocked } from './runs/blocked';
import { chafe } from './runs/chafe';
import { clamps } from './runs/clamps';
import { holeCrowded } from './runs/hole-crowded';
import { inTheWay } from './runs/in-the-way';
import { nearHeat } from './runs/near-heat';
import { pinned } from './runs/pinned';
import { pressureNearBerth } from './runs/pressure-near-berth';
import { suppliedLength } from './runs/supplied-length';
import { twist } from './runs/twist';
import { unsupported } from './runs/unsupported';
import { backflow } from './water/backflow';
import { brineBacksUp } from './water/brine-backs-up';
import { deadHead } from './water/dead-head';
import { drainFall } from './water/drain-fall';
import { filterOrder } from './water/filter-order';
import { flushChlorine } from './water/flush-chlorine';
import { flushReaches } from './water/flush-reaches';
import { flushWater } from './water/flush-water';
import { intakeApart } from './water/intake-apart';
import { intakeImmersion } from './water/intake-immersion';
import { isolated } from './water/isolated';
import { lineRating } from './water/line-rating';
import { loopRise } from './water/loop-rise';
import { overElectrics } from './water/over-electrics';
import { productOpen } from './water/product-open';
import { rejectToTap } from './water/reject-to-tap';
import { runsDry } from './water/runs-dry';
import { sharedIntake } from './water/shared-intake';
import { suctionCrest } from './water/suction-crest';
import { suctionPressure } from './water/suction-pressure';
import { tankEnd } from './water/tank-end';
import { ventedSuction } from './water/vented-suction';

/** Every check there is, in the order in which findings of one severity are listed. */
export const RULES: readonly Rule[] = [
  blocked,
  pinned,
  suppliedLength,
  twist,
  overlap,
  wayIn,
  wayOut,
  serviceSpace,
  servicesTaken,
  serviceTask,
  suctionCrest,
  suctionPressure,
  ventedSuction,
  deadHead,
  runsDry,
  productOpen,
  rejectToTap,
  flushChlorine,
  backflow,
  isolated,
  intakeImmersion,
  intakeApart,
  sharedIntake,
  lineRating,
  tankEnd,
  flushReaches,
  flushWater,
  brineBacksUp,
  filterOrder,
  seacock,
  jointLetsGo,
  siphon,
  outletImmersed,
  pumpedAboard,
  dripOnElectrics,
  bowlSpill,
  greenWater,
  seacockHandle,
  throughHullSound,
  newHole,
  screwLength,
  mounting,
  holdDown,
  level,
  compartmentOverlap,
  panelRecord,
  motorVoltage,
  overElectrics,
  nearHeat,
  loopRise,
  drainFall,
  nearCompass,
  signalApart,
  fuseDistance,
  fuseInterrupts,
  fuseSize,
  conductorSize,
  ignition,
  batteryPlace,
  cableSupport,
  compassParts,
  cool,
  isolator,
  dayPowerBudget,
  dataSheet,
  mains,
  inTheWay,
  unsupported,
  chafe,
  holeCrowded,
  bendAtFitting,
  clamps,
  pressureNearBerth,
  noiseNearBerth,
  lift,
];
