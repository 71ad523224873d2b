import type { Vec3 } from '../base/vec';
import type { Patch } from '../boat/edits';
import type { Prim } from '../runs/routing/types';
import type { Finding } from './finding';
import type { Hazard } from './hazard';

/** Rules whose failures on a line remedies are looked for. */
export const MENDED_RULES: readonly string[] = ['runs/blocked', 'runs/supplied-length', 'water/suction-crest'];

/** What a remedy changes: see core/output/text/remedy-text.ts for its words. */
export type RemedyChange =
  | 'newHole'
  | 'widerHole'
  | 'union'
  | 'elbow'
  | 'kind'
  | 'move'
  | 'turn'
  | 'longerHose'
  | 'way'
  | 'value'
  | 'add'
  | 'remove'
  | 'swap';

/** Something to think of before it is done. */
export interface Caution {
  readonly kind: 'noDrill' | 'belowWater' | 'engineSpace' | 'crimpedEnds' | 'joint';
  readonly data: Readonly<Record<string, string | number>>;
}

/** An edit that was tried: the failure is gone, lines have their runs, and nothing became worse. Plain data. */
export interface Remedy {
  readonly id: string;
  readonly change: RemedyChange;
  /** Values that its words need: ids, metres, degrees. */
  readonly what: Readonly<Record<string, string | number>>;
  readonly patches: readonly Patch[];
  /** What the run then costs with what the change is worth, in metres of hose. */
  readonly costM: number;
  /** Of the run, or of both runs where the line is cut in two; null where it is not about a run. */
  readonly lengthM: number | null;
  /** Holes that would have to be drilled for this line. */
  readonly newHoles: readonly { readonly panelId: string; readonly at: Vec3; readonly diameterM: number }[];
  readonly prims: readonly Prim[];
  readonly cautions: readonly Caution[];
  /** New advice that comes with it. */
  readonly brings: readonly Finding[];
  /** Dangers for whoever does it: those of the failure that it mends. */
  readonly hazards: readonly Hazard[];
}
