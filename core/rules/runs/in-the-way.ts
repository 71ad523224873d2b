import { mostBy } from '../../base/order';
import type { Vec3 } from '../../base/vec';
import { awayFrom } from '../../runs/routing/wishes/prices';
import { SolidPack } from '../../shape/space/kernel';
import { pointsAlong, type RunPoint, radiusOf, runOrNone } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

/** A hose that grazes the corner of a space is held aside by a clip. Common practice, no source. */
const LIMITS = inBoth({ alongM: 0.1 });

/** Hoses where feet stand, gear is thrown in or a bowl comes out are trodden on, torn off or in the way at every service. */
export const inTheWay = defineRule({
  id: 'runs/in-the-way',
  question: 'Do hoses keep out of feet, stowage and the room for service?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  gravest: 'advice',
  limits: LIMITS,
  cannotSee: [
    'Whether a hose can be pushed aside.',
    'Gear that is stowed where no stowage is drawn.',
    'Covers over hoses.',
  ],
  hazards: [],
  subjects: (facts) => facts.lineIds(),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const radiusM = radiusOf(lineId, facts);
    const places = placesAlong(lineId, pointsAlong(run.prims), radiusM, facts);
    if (!places[0]) return [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const { alongM } = LIMITS[facts.profile()];
    const failing = places.filter(({ lengthM }) => lengthM > alongM);
    const told = failing.length > 0 ? failing : [mostBy(places[0], places, ({ lengthM }) => lengthM)];
    return told.map(({ id, owner, label, about, lengthM, at }): Verdict => {
      const grade = lengthM === 0 ? [] : facts.gradesAlong(owner, [1, 0, 0]);
      const { met, ...compared } = withRunDoubt(
        judge({ value: lengthM, limit: alongM, bound: 'atMost', unit: 'm', grade }),
        lineId,
        facts,
      );
      const isThing = facts.thing(owner) !== null;
      const said = { ...compared, related: isThing ? [owner] : [], at, data: { place: label, about } };
      if (met) return { outcome: 'pass', ...said };
      const base = { ...said, instance: id };
      if (about === 'feet') return { outcome: 'fail', severity: 'advice', reason: 'feet', ...base };
      if (about === 'stowage') return { outcome: 'fail', severity: 'advice', reason: 'stowage', ...base };
      return { outcome: 'fail', severity: 'advice', reason: 'service', ...base };
    });
  },
});

interface Place {
  readonly id: string;
  readonly owner: string;
  readonly label: string;
  readonly about: 'feet' | 'stowage' | 'service';
  /** Length of run in it. */
  readonly lengthM: number;
  readonly at: Vec3 | null;
}

/** Spaces in the compartments that a run passes, and how far it lies in each. */
function placesAlong(lineId: string, points: readonly RunPoint[], radiusM: number, facts: Facts): readonly Place[] {
  const layout = facts.layout();
  const measured = (isIn: (at: Vec3) => boolean): Pick<Place, 'lengthM' | 'at'> => {
    const inside = points.filter(({ at }) => isIn(at));
    return { lengthM: inside.reduce((sum, { stepM }) => sum + stepM, 0), at: inside[inside.length >> 1]?.at ?? null };
  };
  const own = facts.wishesOf(lineId)?.ownThings ?? [];
  const zones = facts.zonesAlong(lineId).flatMap((zone): Place[] => {
    const { id, owner, label, kind: about, cells, solid } = zone;
    if (about !== 'feet' && about !== 'stowage') return [];
    // What ends in a compartment lies in it.
    if (about === 'stowage' && own.some((id) => facts.compartmentOf(id) === owner)) return [];
    const isIn = (at: Vec3): boolean => {
      const cell = layout.cellAt(at);
      return cell !== null && cells.includes(cell) && (solid === null || awayFrom(zone, at) < radiusM);
    };
    return [{ id, owner, label, about, ...measured(isIn) }];
  });
  const solids = facts.servicesAlong(lineId).filter(({ owner }) => !own.includes(owner));
  const pack = new SolidPack(solids);
  const services = solids.map(({ id, owner, label }, k): Place => {
    const isIn = ([x, y, z]: Vec3): boolean => pack.distance(k, x, y, z, x, y, z, radiusM) < radiusM;
    return { id, owner, label, about: 'service', ...measured(isIn) };
  });
  return [...zones, ...services];
}
