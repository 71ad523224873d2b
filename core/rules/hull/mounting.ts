import { SET_PUMPS } from '../../boat/kinds';
import type { MountingSurface, Thing } from '../../boat/schema/boat';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';
import { type Mounted, mountingOf, nearestSurface, seats, surfaceUnder } from '../mounted';
import { nameOf } from '../name-of';

/** Common practice, from memory; the 18 mm are what 25 kg that shakes are screwed to. */
const LIMITS = inBoth({
  /** Packing and rubber feet stand between. */
  gapM: 0.02,
  overhangM: 0.02,
  aslantDeg: 5,
  /** What is heavier is not hung on lining, a tank or the bare skin. */
  heavyKg: 10,
  /** What shakes and is as heavy as this wants ply of that thickness, tabbed or bolted. */
  shakingKg: 20,
  plyM: 0.018,
});

/** What stands in the hull, in a panel or in a locker, and is screwed to no face. */
const UNSCREWED: ReadonlySet<Thing['kind']> = new Set([
  'sparesBox',
  'bulkheadUnion',
  'skinFitting',
  'seacock',
  'logFitting',
  'tee',
]);
const HOLDS_NOTHING: ReadonlySet<string> = new Set(['lining', 'tank', 'skin']);
const BOARDS: ReadonlySet<string> = new Set(['ply', 'solidWood']);

/** What is screwed to lining comes off in the first seaway, with its hoses. */
export const mounting = defineRule({
  id: 'hull/mounting',
  question: 'Is there something under every part that it can be screwed to?',
  sources: [
    { key: 'practice', standing: 'fromMemory' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  limits: LIMITS,
  cannotSee: [
    'What is under paint, foam or lining.',
    'How well a board is tabbed, where it is not said.',
    'Whether the screws meet a stringer or a void.',
    'Brackets and feet beyond the drawn envelope.',
  ],
  hazards: ['lifting'],
  subjects: (facts) =>
    facts.thingIds().filter((id) => facts.isPart(id) && !UNSCREWED.has(facts.thing(id)?.kind ?? 'other')),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    if (!thing || !facts.pose(id)) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const limits = LIMITS[facts.profile()];
    const isHeavy = thing.massKg >= limits.heavyKg;
    const saysHow = facts.mountedOn(id) !== null || mountingOf(id, facts)?.face !== undefined;
    const isDrawn = Object.keys(facts.mountingSurfaces()).length > 0;
    if (!saysHow && !(isHeavy && isDrawn))
      return [{ outcome: 'notApplicable', reason: isHeavy ? 'noneDrawn' : 'light' }];
    const mounted = surfaceUnder(id, facts);
    if (!mounted) return [withoutSurface(id, isHeavy, facts)];
    const failing = [seated(mounted, facts), ...edged(mounted, facts), ...held(thing, mounted, facts)].filter(
      ({ outcome }) => outcome !== 'pass',
    );
    return failing.length > 0 ? failing : [seated(mounted, facts)];
  },
  mends: (failed, at) => [...otherSurfaces(failed, at), ...padUnder(failed, at)],
});

/** No surface is named, and none that is drawn lies under it. */
function withoutSurface(id: string, isHeavy: boolean, facts: Facts): Verdict {
  const nearest = nearestSurface(id, facts);
  const name = nameOf(id, facts);
  if (!isHeavy && facts.mountedOn(id) === null) return { outcome: 'notApplicable', reason: 'light' };
  if (!nearest)
    return { outcome: 'cannotTell', reason: 'noSurface', enterNext: `Draw the face that ${name} is screwed to` };
  const { seat, id: surface } = nearest;
  const isBeside = Math.abs(seat.gapM) <= LIMITS[facts.profile()].gapM;
  const [value, limit] = isBeside
    ? [seat.overhangM, LIMITS[facts.profile()].overhangM]
    : [Math.abs(seat.gapM), LIMITS[facts.profile()].gapM];
  const { met: _met, ...compared } = judge({ value, limit, bound: 'atMost', unit: 'm', grade: [] });
  return {
    outcome: 'fail',
    severity: 'fault',
    reason: 'nothingUnder',
    ...compared,
    related: [surface],
    at: seat.at,
    data: { surface, isBeside },
  };
}

function seated({ id: surface, seat }: Mounted, facts: Facts): Verdict {
  const { gapM, aslantDeg } = LIMITS[facts.profile()];
  const said = { related: [surface], at: seat.at, data: { surface } };
  const { met: faces, ...turned } = judge({
    value: seat.aslantDeg,
    limit: aslantDeg,
    bound: 'atMost',
    unit: 'deg',
    grade: [],
  });
  if (!faces) return { outcome: 'fail', severity: 'fault', reason: 'facesAway', ...turned, ...said };
  // The place of a part is chosen: it is screwed to the face wherever that really is.
  const { met, ...compared } = judge({
    value: Math.abs(seat.gapM),
    limit: gapM,
    bound: 'atMost',
    unit: 'm',
    grade: [],
  });
  return met
    ? { outcome: 'pass', ...compared, ...said }
    : { outcome: 'fail', severity: 'fault', reason: 'offSurface', ...compared, ...said };
}

function edged({ id: surface, seat }: Mounted, facts: Facts): readonly Verdict[] {
  const { overhangM, aslantDeg } = LIMITS[facts.profile()];
  if (seat.aslantDeg > aslantDeg) return [];
  const { met, ...compared } = judge({
    value: seat.overhangM,
    limit: overhangM,
    bound: 'atMost',
    unit: 'm',
    grade: [facts.gradeOf(surface)],
  });
  const said = { instance: 'edge', related: [surface], at: seat.at, data: { surface } };
  return [
    met
      ? { outcome: 'pass', ...compared, ...said }
      : { outcome: 'fail', severity: 'fault', reason: 'overhangs', ...compared, ...said },
  ];
}

function held(thing: Thing, { id, surface, seat }: Mounted, facts: Facts): readonly Verdict[] {
  const { heavyKg, shakingKg, plyM } = LIMITS[facts.profile()];
  const part = partOf(surface);
  const said = { instance: 'hold', related: [id], at: seat.at, data: { surface: id, part } };
  const mass = (limit: number) =>
    judge({ value: thing.massKg, limit, bound: 'atMost' as const, unit: 'kg' as const, grade: [] });
  if (thing.massKg >= heavyKg && HOLDS_NOTHING.has(part)) {
    const { met: _met, ...compared } = mass(heavyKg);
    return [{ outcome: 'fail', severity: 'fault', reason: 'holdsNothing', ...compared, ...said }];
  }
  if (thing.massKg < shakingKg || !shakes(thing)) return [];
  if (surface.fixing === 'glued' || surface.fixing === 'screwed') {
    const { met: _met, ...compared } = mass(shakingKg);
    const data = { ...said.data, fixing: surface.fixing };
    return [{ outcome: 'fail', severity: 'fault', reason: 'looseBoard', ...compared, ...said, data }];
  }
  if (!BOARDS.has(surface.material)) return [];
  const { met, ...compared } = judge({
    value: surface.thicknessM,
    limit: plyM,
    bound: 'atLeast',
    unit: 'm',
    grade: [],
  });
  return [
    met
      ? { outcome: 'pass', ...compared, ...said }
      : { outcome: 'fail', severity: 'fault', reason: 'tooThin', ...compared, ...said },
  ];
}

const shakes = ({ kind }: Thing): boolean => SET_PUMPS.has(kind);

/** What the face belongs to: what is said, else what its material and what is right behind it tell. */
function partOf({ partOf: said, material, behind, behindM = 0 }: MountingSurface): string {
  if (said) return said;
  if (material === 'lining') return 'lining';
  const isShell = !BOARDS.has(material) && material !== 'other';
  return isShell && behind === 'hull' && behindM === 0 ? 'skin' : 'other';
}

/** The other surfaces that its face really lies on. */
function otherSurfaces({ subject }: FailedFinding, { arrangementId, facts }: MendingAt): readonly Mend[] {
  const from = facts.mountedOn(subject);
  return seats(subject, facts)
    .filter(({ id, seat }) => id !== from && Math.abs(seat.gapM) <= LIMITS[facts.profile()].gapM)
    .map(({ id, surface }) => ({
      id: `mount ${subject} ${id}`,
      change: 'value',
      what: { id: subject, field: 'mountedOn', to: id, surface: surface.name ?? id },
      recipe: (boat) => {
        const place = boat.arrangements[arrangementId]?.places[subject];
        if (place) place.mountedOn = id;
      },
    }));
}

/** Plywood of 18 mm, tabbed to the hull, in place of what does not hold. */
function padUnder({ reason, data }: FailedFinding, { boat, facts }: MendingAt): readonly Mend[] {
  const { surface } = data;
  const isOfBoard = reason === 'holdsNothing' || reason === 'looseBoard' || reason === 'tooThin';
  if (!isOfBoard || typeof surface !== 'string' || !Object.hasOwn(boat.mountingSurfaces, surface)) return [];
  const { plyM } = LIMITS[facts.profile()];
  return [
    {
      id: `pad ${surface}`,
      change: 'add',
      what: { item: 'pad', to: surface },
      recipe: (draft) => {
        const face = draft.mountingSurfaces[surface];
        if (face) Object.assign(face, { material: 'ply', thicknessM: plyM, partOf: 'pad', fixing: 'tabbed' });
      },
    },
  ];
}
