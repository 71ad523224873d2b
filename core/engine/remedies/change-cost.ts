import type { RemedyChange } from '../../rules/remedy';

/**
 * What a change is worth in metres of hose, beside the hose and the holes themselves. Project judgement, no source: a union is two
 * joints and a hole, a part that moves is fastened anew.
 */
export const CHANGE_COST_M: Readonly<Record<RemedyChange, number>> = {
  newHole: 0,
  widerHole: 0.15,
  union: 0.6,
  elbow: 0.3,
  kind: 0.5,
  move: 0.4,
  turn: 0.4,
  longerHose: 0.3,
  way: 0.3,
  value: 0.2,
  add: 0.5,
  remove: 0.3,
  swap: 0.3,
};
