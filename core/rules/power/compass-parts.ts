import { SET_PUMPS } from '../../boat/kinds';
import type { Thing } from '../../boat/schema/boat';
import { gapBetween } from '../../shape/space/overlap';
import { directionTo } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import { centreOf, envelopeOf } from '../envelope';
import type { Facts } from '../facts';
import type { SourceRef } from '../finding';
import { judge } from '../judge';

/** How far magnets keep off a compass that says nothing itself. Common practice, no source. */
const LIMITS = inBoth({ compassM: 1 });

const PRACTICE: SourceRef = { key: 'practice', standing: 'commonPractice' };
const BOAT: SourceRef = { key: 'boat-file', standing: 'boatFile' };

/** The magnets of a motor turn a compass whether it runs or not, and nobody looks for them behind a locker door. */
export const compassParts = defineRule({
  id: 'power/compass-parts',
  question: 'Do motors and magnets keep off every compass?',
  sources: [PRACTICE, BOAT],
  limits: LIMITS,
  cannotSee: [
    'Iron of the engine, keel and anchor: a compass is adjusted for what stays in its place.',
    'Loudspeakers, tools and phones.',
    'Motors without brushes, unless a magnetic zone is entered for them.',
  ],
  hazards: [],
  subjects: (facts) => (compasses(facts).length === 0 ? [] : facts.thingIds().filter((id) => isMagnet(id, facts))),
  check(thingId, facts): readonly Verdict[] {
    const thing = facts.thing(thingId);
    const own = envelopeOf(thingId, facts);
    if (!thing || !own) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const all = compasses(facts).flatMap((compass) => {
      const solid = envelopeOf(compass, facts);
      if (!solid) return [];
      const { gapM, at } = gapBetween(own, solid);
      const keep = keepOff(thing, facts.thing(compass), LIMITS[facts.profile()].compassM);
      return [{ compass, ...keep, gapM: Math.max(0, gapM), at, way: directionTo(centreOf(own), centreOf(solid)) }];
    });
    const [first, ...rest] = all;
    if (!first) return [{ outcome: 'notApplicable', reason: 'noCompass' }];
    const { compass, reachM, isSaid, gapM, at, way } = rest.reduce(
      (worst, one) => (one.gapM - one.reachM < worst.gapM - worst.reachM ? one : worst),
      first,
    );
    const { met, ...compared } = judge({
      value: gapM,
      limit: reachM,
      bound: 'atLeast',
      unit: 'm',
      grade: [...facts.gradesAlong(thingId, way), ...facts.gradesAlong(compass, way)],
    });
    const said = { ...compared, related: [compass], at, sources: [isSaid ? BOAT : PRACTICE], data: { compass } };
    if (met) return [{ outcome: 'pass', ...said }];
    return [{ outcome: 'fail', severity: 'fault', reason: 'tooNear', ...said }];
  },
});

const compasses = (facts: Facts): readonly string[] =>
  facts.thingIds().filter((id) => facts.thing(id)?.kind === 'compass');

/** Farthest that a zone of its own reaches; null without one. */
function ownZone(thing: Thing | null): number | null {
  const said = Object.values(thing?.zones ?? {}).filter(({ kind }) => kind === 'magnetic');
  return said.length === 0 ? null : Math.max(...said.map(({ radiusM }) => radiusM));
}

/** What has a magnetic zone, and motors with brushes: those have magnets. */
function isMagnet(id: string, facts: Facts): boolean {
  const thing = facts.thing(id);
  if (!thing || thing.kind === 'compass') return false;
  return ownZone(thing) !== null || hasMagnets(thing);
}

const hasMagnets = ({ kind, electric }: Thing): boolean =>
  electric?.brushed === true || (SET_PUMPS.has(kind) && electric?.brushed !== false && (electric?.drawA ?? 0) > 0);

/** Its own zone says how far a compass keeps off it; without one the zone of the compass says how far magnets keep off. */
function keepOff(
  thing: Thing,
  compass: Thing | null,
  usualM: number,
): { readonly reachM: number; readonly isSaid: boolean } {
  const own = ownZone(thing);
  const of = ownZone(compass);
  if (own !== null) return { reachM: hasMagnets(thing) ? Math.max(own, of ?? 0) : own, isSaid: true };
  return { reachM: of ?? usualM, isSaid: of !== null };
}
