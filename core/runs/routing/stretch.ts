import type { Vec3 } from '../../base/vec';
import type { Passage } from './nodes';
import type { Obstacle } from './world';

/** An end of one stretch: a port's lead, or a clip point with free direction. */
export interface StretchEnd {
  readonly at: Vec3;
  readonly cell: number;
  /** Direction of travel through the end; null when free. */
  readonly direction: Vec3 | null;
  readonly exempt: (obstacle: Obstacle) => boolean;
}

/** What the path passes: free points and ways through panels, from start to goal, both excluded. */
export type Stop =
  | { readonly kind: 'free'; readonly at: Vec3 }
  | { readonly kind: 'passage'; readonly passage: Passage; readonly forward: boolean };

/** How a stretch lies in its line. */
export interface StretchWay {
  /** Looked at from its far end: what flows falls the other way. */
  readonly isBackward: boolean;
  /** Whether the height that the line must rise to is this stretch's to reach. */
  readonly mustRise: boolean;
  /** Whether the guide settles every node of every cell: dearer, and never above the truth. */
  readonly isThorough: boolean;
  /** Whether places close beside things are looked at as well. */
  readonly isNarrow: boolean;
}
/** A stretch that is a line by itself. */
export const WHOLE_LINE: StretchWay = { isBackward: false, mustRise: true, isThorough: false, isNarrow: false };
