import { landingOn } from '../../assess/flooding/falling';
import { catches, fallsInto, runsOn, spillOf } from '../../assess/flooding/spill';
import { inOrder } from '../../base/order';
import { pointInBoat, type Vec3 } from '../../base/vec';
import type { Service, Thing } from '../../boat/schema/boat';
import { isOpenToWater } from '../../runs/routing/wishes/zones';
import { saysOfBilges } from '../bilges';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend } from '../mend';
import { nameOf } from '../name-of';
import { isSheltered } from '../sheltered';

/** What runs out splashes as far as drips are kept aside of runs over electrics. Common practice, no source. */
const LIMITS = inBoth({ asideM: 0.1 });

/** Sums of coordinates are no finer. */
const ROUNDING_M = 1e-9;
/** How far down electrics may stand under a bowl. */
const DEEPEST_M = 3;

/** Whoever opens a bowl lets its water run out: salt, and every few weeks. */
export const bowlSpill = defineRule({
  id: 'flooding/bowl-spill',
  question: 'Does what runs out of bowls and lids end in a tray or a pumped bilge, and not on electrics or a berth?',
  gravest: 'danger',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  limits: LIMITS,
  cannotSee: ['Splashes, and what runs along a hose or a shelf.', 'Whether a limber hole is clogged.'],
  hazards: ['dcFault'],
  subjects: (facts) =>
    facts.thingIds().filter((id) => {
      const thing = facts.thing(id);
      return thing && Object.values(thing.services).some((service) => spillOf(thing, service) !== 0);
    }),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    if (!thing || !facts.pose(id)) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    return inOrder(thing.services)
      .filter(([, service]) => spillOf(thing, service) !== 0)
      .flatMap(([key, service]) => judgeTask({ id, thing, key, service }, facts));
  },
  mends: holdTray,
});

interface Task {
  readonly id: string;
  readonly thing: Thing;
  readonly key: string;
  readonly service: Service;
}

function judgeTask({ id, thing, key, service }: Task, facts: Facts): readonly Verdict[] {
  const pose = facts.pose(id);
  if (!pose) return [];
  const from = pointInBoat(pose, service.at);
  const litres = spillOf(thing, service);
  const task = service.name ?? service.task;
  const under = facts.thingIds().flatMap((other) => fallenOn(id, from, other, facts));
  const electrics = under
    .filter(({ isOpen, asideM }) => isOpen !== false && asideM < LIMITS[facts.profile()].asideM - ROUNDING_M)
    .sort((a, b) => a.asideM - b.asideM);
  const hit = electrics.find(({ isOpen }) => isOpen === true);
  const data = { task, litres };
  if (hit) {
    const { met: _, ...compared } = judge({
      value: hit.asideM,
      limit: LIMITS[facts.profile()].asideM,
      bound: 'atLeast',
      unit: 'm',
      grade: [...facts.gradesAlong(id, [1, 0, 0]), ...facts.gradesAlong(hit.other, [1, 0, 0])],
    });
    const said = {
      ...compared,
      instance: key,
      related: [hit.other],
      at: hit.at,
      data: { ...data, electrics: hit.other },
    };
    return [
      hit.asideM > 0
        ? { outcome: 'fail', severity: 'fault', reason: 'besideElectrics', ...said }
        : { outcome: 'fail', severity: 'danger', reason: 'onElectrics', ...said },
    ];
  }
  const unsure = electrics[0];
  if (unsure)
    return [
      {
        outcome: 'cannotTell',
        reason: 'drips',
        instance: key,
        enterNext: `Enter how well ${nameOf(unsure.other, facts)} stands water from above`,
        related: [unsure.other],
        at: unsure.at,
        data,
      },
    ];
  return [whereItEnds({ key, service, from, litres, data, id }, under, facts)];
}

interface Under {
  readonly other: string;
  readonly asideM: number;
  readonly at: Vec3;
  readonly isOpen: boolean | null;
}

/** A thing below that nothing shelters, with how far aside of the fall it stands. */
function fallenOn(id: string, from: Vec3, other: string, facts: Facts): readonly Under[] {
  const thing = facts.thing(other);
  if (!thing || other === id) return [];
  const isOpen = isOpenToWater(thing);
  const tray = catches(thing);
  if (isOpen === false && tray === 0) return [];
  const solid = facts.envelope(other);
  const landing = solid && landingOn(solid, from);
  if (!landing || landing.dropM > DEEPEST_M || landing.asideM > LIMITS[facts.profile()].asideM) return [];
  if (isSheltered(from, landing.at, [id, other], facts)) return [];
  return [{ other, asideM: landing.asideM, at: landing.at, isOpen }];
}

function whereItEnds(
  spill: {
    readonly id: string;
    readonly key: string;
    readonly service: Service;
    readonly from: Vec3;
    readonly litres: number | null;
    readonly data: NonNullable<Verdict['data']>;
  },
  under: readonly Under[],
  facts: Facts,
): Verdict {
  const { key, service, from, litres, data, id } = spill;
  const said = { instance: key, at: from };
  const tray = under.find(({ other, asideM }) => asideM === 0 && catches(facts.thing(other) ?? NOTHING) !== 0);
  if (tray) {
    const holdsL = catches(facts.thing(tray.other) ?? NOTHING);
    const related = [tray.other];
    if (holdsL === null || service.needs.includes('tray'))
      return { outcome: 'pass', ...CAUGHT, ...said, related, data: { ...data, tray: tray.other } };
    if (litres === null) return noAmount(said, related);
    const { met, ...compared } = judge({ value: litres, limit: holdsL, bound: 'atMost', unit: 'L', grade: [] });
    return met
      ? { outcome: 'pass', ...compared, ...said, related, data: { ...data, tray: tray.other } }
      : { outcome: 'fail', severity: 'advice', reason: 'trayTooSmall', ...compared, ...said, related, data };
  }
  if (service.needs.includes('tray')) return { outcome: 'pass', ...CAUGHT, ...said, data: { ...data, isHeld: true } };
  const room = { layout: facts.layout(), openings: facts.openings() };
  const compartment = fallsInto(from, facts.compartmentOf(id), room);
  if (compartment === null)
    return { outcome: 'cannotTell', reason: 'nowhere', enterNext: 'Draw the compartment below it', ...said, data };
  const related = [compartment];
  const where = { ...data, compartment };
  const lost = { value: litres ?? 0, unit: 'L' as const };
  const limit = { value: 0, unit: 'L' as const, bound: 'atMost' as const };
  if (facts.compartment(compartment)?.berth && litres !== null)
    return {
      outcome: 'fail',
      severity: 'fault',
      reason: 'onBerth',
      measured: lost,
      limit,
      ...said,
      related,
      data: where,
    };
  const reached = runsOn(compartment, litres ?? 0, {
    layout: room.layout,
    hull: facts.hull(),
    ways: facts.waterways('clear'),
    level: facts.attitude(),
  });
  const pumped = reached.find((one) => isPumped(one, facts));
  if (pumped !== undefined)
    return {
      outcome: 'pass',
      ...CAUGHT,
      ...said,
      related: [compartment, pumped],
      data: { ...where, pumped },
    };
  if (litres === null) return noAmount(said, related);
  // where no bilge is drawn nothing is known of how water leaves her
  if (!saysOfBilges(facts)) return { outcome: 'notApplicable', reason: 'noBilgeDrawn', ...said, related };
  return { outcome: 'fail', severity: 'fault', reason: 'stays', measured: lost, limit, ...said, related, data: where };
}

const NOTHING: Pick<Thing, 'kind'> = { kind: 'other' };

/** Nothing of it is left lying. */
const CAUGHT = {
  measured: { value: 0, unit: 'L' },
  limit: { value: 0, unit: 'L', bound: 'atMost' },
} as const;

/** Nobody says how much runs out: there is nothing to judge but what stands under it. */
const noAmount = (said: Pick<Verdict, 'instance' | 'at'>, related: readonly string[]): Verdict => ({
  outcome: 'notApplicable',
  reason: 'noAmount',
  ...said,
  related,
});

/** A bilge pump empties it: as it says, or because one stands in it. */
const isPumped = (compartment: string, facts: Facts): boolean =>
  facts.compartment(compartment)?.bilgePumped === true ||
  facts.thingIds().some((id) => facts.thing(id)?.kind === 'bilgePump' && facts.compartmentOf(id) === compartment);

/** A tray that is held under the bowl for the task. */
function holdTray({ subject, key, reason }: FailedFinding): readonly Mend[] {
  const task = key.split('|')[2] ?? '';
  if (reason !== 'stays' && reason !== 'trayTooSmall' && reason !== 'onBerth') return [];
  return [
    {
      id: `tray/${task}`,
      change: 'add',
      what: { item: 'looseTray', to: subject },
      recipe: (boat) => {
        const service = (boat.fixtures[subject] ?? boat.parts[subject])?.services[task];
        if (service) service.needs.push('tray');
      },
    },
  ];
}
