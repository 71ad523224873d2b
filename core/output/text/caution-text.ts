import type { Hazard } from '../../rules/hazard';

/** What whoever acts on a verdict, a remedy or a sheet must beware of, by what can hurt. */
const CAUTION: Readonly<Record<Hazard, string>> = {
  hullHole:
    'A fitting below the waterline can sink the boat: work on it ashore, or with a bung at hand and the pumps running, and never leave a hose off an open seacock.',
  highPressure:
    'The pressure side stands at about 55 bar. Let the pressure off before a joint is touched, keep clear of the ends, and never feel for a leak with the hand: the jet goes through skin.',
  dcFault:
    'A bank can drive thousands of amperes through a fault. Isolate it, take rings and watches off, and fuse every conductor at its source.',
  ignition:
    'Gas and petrol vapour sink and gather low. No spark, no brushed motor and no joint of a cable where they can come; air the space before work.',
  drinkingWater:
    'People drink this water. Use fittings that are made for drinking water, keep sea and bilge water apart from it, and test before the tank is filled.',
  lifting:
    'Take a second person or a tackle. Rules for lifting hold on firm ground with room to stand; cramped places and a moving boat make it worse.',
};

/** Who has the last word on all of these. */
export const DEFERENCE = 'Check local codes; have a licensed person do or check it.';

/** Cautions in words, and after them who has the last word; none for what can hurt nobody. */
export const cautionTexts = (hazards: readonly Hazard[]): readonly string[] =>
  hazards.length === 0 ? [] : [...hazards.map((hazard) => CAUTION[hazard]), DEFERENCE];
