import { CLEAN_MARGIN, combine } from '@core/boat/accuracy';
import type { Boat } from '@core/boat/schema/boat';
import { gradesOver } from '@core/engine/grade-stages';
import { type Source, sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import type { Gap } from '../tools/snap';
import type { Scene } from './scene';

const stores = new WeakMap<Boat, Store<Source>>();

function gradeIn(boat: Boat, id: string): number {
  const store = stores.get(boat) ?? new Store(sourceOf(boat));
  stores.set(boat, store);
  return gradesOver(store.read).gradeOf(id).gradeM;
}

/**
 * Two standard deviations of the distance between a thing and the face that a gap ends at, metres; null where the gap is so
 * much wider that the tape cannot change the verdict.
 */
export function closeCallOf({ boat, layout }: Pick<Scene, 'boat' | 'layout'>, thing: string, gap: Gap): number | null {
  const subject = gap.face?.subject;
  const between = subject === undefined ? ['hull'] : (layout.panels[subject]?.between ?? [subject]);
  const grade = combine(gradeIn(boat, thing), Math.max(...between.map((id) => gradeIn(boat, id))));
  return gap.gapM > 0 && gap.gapM <= CLEAN_MARGIN * grade ? grade : null;
}
