import type { Thing } from '../../boat/schema/boat';

/** What opens or closes a circuit, or has bare terminals under current, whatever else is said of it. */
const SPARKS: ReadonlySet<string> = new Set(['battery', 'breaker', 'fuse', 'busbar', 'dcPanel', 'inverterCharger']);
/** Motors that may or may not have brushes. */
const MOTORS: ReadonlySet<string> = new Set([
  'pumpModule',
  'feedPump',
  'freshPump',
  'deckWashPump',
  'bilgePump',
  'autopilotDrive',
  'fridge',
]);

type Electric = Pick<Thing, 'kind' | 'electric' | 'ports'>;

/** Anything that current comes to. */
export const isElectric = ({ kind, electric, ports }: Electric): boolean =>
  SPARKS.has(kind) ||
  MOTORS.has(kind) ||
  electric !== undefined ||
  Object.values(ports).some(({ medium }) => medium === 'dcPower');

/** Whether it can spark in use; unknown of motors of which nobody says more. */
export function sparks({ kind, electric }: Pick<Thing, 'kind' | 'electric'>): 'yes' | 'no' | 'unknown' {
  if (electric?.ignitionProtected) return 'no';
  if (electric?.brushed || SPARKS.has(kind)) return 'yes';
  if (electric?.brushed === false) return 'no';
  return MOTORS.has(kind) && electric !== undefined ? 'unknown' : 'no';
}

/** How far gas reaches about a thing, metres; null where none is about it. A zone of ignition about what sparks itself is none. */
export function gasReach(thing: Pick<Thing, 'kind' | 'electric' | 'zones'>): number | null {
  const reaches = Object.values(thing.zones ?? {})
    .filter(({ kind }) => kind === 'gas' || (kind === 'ignition' && sparks(thing) === 'no'))
    .map(({ radiusM }) => radiusM);
  return reaches.length === 0 ? null : Math.max(...reaches);
}

/** How far off gas must be by the zone of what sparks, metres. */
export const ignitionReach = ({ zones }: Pick<Thing, 'zones'>): number =>
  Math.max(0, ...Object.values(zones ?? {}).flatMap(({ kind, radiusM }) => (kind === 'ignition' ? [radiusM] : [])));
