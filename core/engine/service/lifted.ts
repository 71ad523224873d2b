import { liftedFrom } from '../../rules/lifted-part';
import { convexOf } from '../../shape/space/convex';
import { standingPlaces, thing } from '../source';
import type { Read } from '../store';
import type { Attempt } from './judge-task';
import { type Measure, measureOf } from './pieces';
import type { TaskLift } from './service-report';
import type { PlacedTask } from './task-stages';

/** From here on one person takes another, or a tackle; index of NIOSH. */
const INDEX = 3;
/** What is lighter in the hand is no lift, kilograms. Project judgement. */
const LIGHT_KG = 5;

/** What a task asks to be lifted, from where whoever does it stands; null of what is light, and where nobody stands. */
export function liftOf(
  { needs, thing: id, drawn, face }: PlacedTask,
  attempt: Attempt | null,
  read: Read,
): { readonly told: TaskLift; readonly measure: Measure } | null {
  const place = read(standingPlaces)[attempt?.way.standing ?? ''];
  const isWhole = needs.massKg === null;
  const massKg = needs.massKg ?? read(thing, id)?.massKg ?? 0;
  if (!place || massKg <= 0 || (!isWhole && massKg < LIGHT_KG)) return null;
  const at = isWhole && drawn ? convexOf(drawn).centre : face.at;
  const { index, weightKg, outM, upM, isBeyond } = liftedFrom(place, at, massKg);
  return {
    told: { massKg, index, recommendedKg: weightKg, outM, upM, isBeyond },
    measure: measureOf('lift', { value: index, limit: INDEX, bound: 'atMost', unit: 'count', grade: [] }, [
      { key: 'niosh-94-110', standing: 'quoted' },
      { key: 'practice', standing: 'fromMemory' },
    ]),
  };
}
