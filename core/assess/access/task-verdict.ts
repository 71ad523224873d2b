/**
 * Verdicts on service tasks, from best to worst. noWayFound: no way was found and none is disproved, with what was tried; it stands between
 * what goes and what does not. notAsked: something is lacking in the drawing.
 */
export const TASK_VERDICTS = [
  'byHand',
  'withTools',
  'withMirror',
  'afterMoving',
  'noWayFound',
  'byDismantling',
  'notAtAll',
  'notAsked',
] as const;
export type TaskVerdict = (typeof TASK_VERDICTS)[number];

/** How far down the list a verdict stands: the less the better. */
export const verdictRank = (verdict: TaskVerdict): number => TASK_VERDICTS.indexOf(verdict);
