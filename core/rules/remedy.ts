import type { Vec3 } from '../base/vec';
import type { Patch } from '../boat/edits';
import type { Prim } from '../runs/routing/types';

/** Rules whose failures on a line remedies are looked for. */
export const MENDED_RULES: readonly string[] = ['runs/blocked', 'runs/supplied-length', 'water/suction-crest'];

/** What a remedy changes: see core/output/text/remedy-text.ts for its words. */
export type RemedyChange = 'newHole' | 'widerHole' | 'union' | 'elbow' | 'kind' | 'move' | 'turn' | 'longerHose';

/** Something to think of before it is done. */
export interface Caution {
  readonly kind: 'noDrill' | 'belowWater' | 'engineSpace' | 'crimpedEnds' | 'joint';
  readonly data: Readonly<Record<string, string | number>>;
}

/** An edit that was tried: the line has a run that keeps its limits, and nothing became worse. Plain data. */
export interface Remedy {
  readonly id: string;
  readonly change: RemedyChange;
  /** Values that its words need: ids, metres, degrees. */
  readonly what: Readonly<Record<string, string | number>>;
  readonly patches: readonly Patch[];
  /** What the run then costs with what the change is worth, in metres of hose. */
  readonly costM: number;
  /** Of the run, or of both runs where the line is cut in two. */
  readonly lengthM: number;
  /** Holes that would have to be drilled for this line. */
  readonly newHoles: readonly { readonly panelId: string; readonly at: Vec3; readonly diameterM: number }[];
  readonly prims: readonly Prim[];
  readonly cautions: readonly Caution[];
}
