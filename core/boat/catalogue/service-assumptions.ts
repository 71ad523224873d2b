import { timesAYear } from '../../base/formulas/service-burden';
import type { Boat, Opening, Service, Thing } from '../schema/boat';
import { needsOf, type ServiceTask } from './task-defaults';

/** What the minutes of service a year are reckoned with. */
export interface ServiceAssumptions {
  readonly setHoursYear: number;
  readonly engineHoursYear: number;
  readonly openMinutes: number;
  readonly liftOutMinutes: number;
  readonly unscrewMinutes: number;
  readonly moveMinutes: number;
  readonly takeOffMinutes: number;
  /** Fields of `serviceWork` that the boat does not give: usual values stand for them. */
  readonly assumed: readonly (keyof NonNullable<Boat['serviceWork']>)[];
}

/** From memory, to be replaced by the owner's own. */
const USUAL = {
  setHoursYear: 100,
  daysYear: 60,
  engineHoursYear: 100,
  openMinutes: 0.5,
  unscrewMinutes: 8,
  moveMinutes: 3,
  takeOffMinutes: 20,
} as const;
const LIFT_OUT_MINUTES = 1;

/** The assumptions of a boat, usual values where it gives none. */
export function assumptionsOf(boat: Pick<Boat, 'serviceWork' | 'needs' | 'parts' | 'fixtures'>): ServiceAssumptions {
  const own = boat.serviceWork ?? {};
  const given = (key: keyof typeof USUAL): number => own[key] ?? USUAL[key];
  return {
    setHoursYear: own.setHoursYear ?? hoursByNeed(boat, given('daysYear')) ?? USUAL.setHoursYear,
    engineHoursYear: given('engineHoursYear'),
    openMinutes: given('openMinutes'),
    liftOutMinutes: own.openMinutes ?? LIFT_OUT_MINUTES,
    unscrewMinutes: given('unscrewMinutes'),
    moveMinutes: given('moveMinutes'),
    takeOffMinutes: given('takeOffMinutes'),
    assumed: (Object.keys(USUAL) as (keyof typeof USUAL)[]).filter((key) => own[key] === undefined),
  };
}

/** Hours that the set runs for the water that is wanted; null where either is not known. */
function hoursByNeed(
  { needs, parts, fixtures }: Pick<Boat, 'needs' | 'parts' | 'fixtures'>,
  days: number,
): number | null {
  const productLH = [...Object.values(parts), ...Object.values(fixtures)].reduce(
    (most, thing) => Math.max(most, thing.productLH ?? 0),
    0,
  );
  if (needs?.waterLDay === undefined || productLH <= 0) return null;
  return ((needs.waterLDay + (needs.flushL ?? 0)) / productLH) * days;
}

/** Minutes to open one opening and to shut it again. */
export function openingMinutes(opening: Pick<Opening, 'how' | 'minutes'>, assumed: ServiceAssumptions): number {
  if (opening.minutes !== undefined) return opening.minutes;
  switch (opening.how) {
    case 'open':
      return 0;
    case 'screwed':
      return assumed.unscrewMinutes;
    case 'liftOut':
      return assumed.liftOutMinutes;
    case 'hinged':
    case 'sliding':
    case 'curtain':
      return assumed.openMinutes;
  }
}

const ENGINE_KINDS: ReadonlySet<Thing['kind']> = new Set(['engine', 'stuffingBox', 'waterLock', 'exhaust', 'fuelTank']);
const ENGINE_TASKS: ReadonlySet<ServiceTask> = new Set(['stuffingBox', 'oilFilter', 'fuelFilter', 'dipstick', 'belt']);

/** How often a year a task of a thing is done; null where no interval says. */
export function taskTimesAYear(
  thing: Pick<Thing, 'kind'>,
  service: Service,
  assumed: ServiceAssumptions,
): number | null {
  const byEngine = ENGINE_KINDS.has(thing.kind) || ENGINE_TASKS.has(service.task);
  return timesAYear(needsOf(service), byEngine ? assumed.engineHoursYear : assumed.setHoursYear);
}
