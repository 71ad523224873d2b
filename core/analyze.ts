import type { Boat } from './boat/schema/boat';
import type { Report } from './engine/report';
import { report } from './engine/report-stages';
import { sourceOf } from './engine/source';
import { Store } from './engine/store';
import type { Effort } from './runs/routing/types';

export interface AnalyzeOptions {
  /** Default: the arrangement that is marked current, else the first by id. */
  readonly arrangement?: string;
  readonly effort?: Effort;
  /**
   * Whether the bounds of the runs are worked out closely, bends and things counted, and lines that are blocked without proof are
   * tried again with more effort, once all others lie. Default: no; bounds are then portal to portal.
   */
  readonly deeper?: boolean;
  /**
   * none: the cheapest runs by length and holes alone, to compare with the certified bound; all (default): kept from electrics, heat and the
   * like where they can be.
   */
  readonly wishes?: 'all' | 'none';
}

/**
 * The front door: a boat in, its report out, from cold.
 *
 * What the report is made of, from the bottom up (each is a stage in core/engine):
 * hull and attitude, layout (compartments, panels), solids of the things, the circuit, the wish of every line,
 * the runs in one fixed order, their repair and a deeper try at what is blocked, the findings of every rule, the parts-and-lengths list.
 */
export function analyze(boat: Boat, { arrangement, effort, deeper, wishes }: AnalyzeOptions = {}): Report {
  return new Store(sourceOf(boat, arrangement, effort, deeper, wishes)).read(report);
}
