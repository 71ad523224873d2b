import { degreesPerMetre, dripPoints, isWet, type Landing, landingOn } from '../../assess/flooding/falling';
import { leastBy } from '../../base/order';
import type { Vec3 } from '../../base/vec';
import { isOpenToWater } from '../../runs/routing/wishes/zones';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { fitCover } from '../fit-cover';
import { judge, times } from '../judge';
import { nameOf } from '../name-of';
import { isSheltered } from '../sheltered';

/** Half the angle of the cone in which drips fall. Common practice, no source: the boat leans, and drips run along what they hang from. */
const LIMITS = inBoth({ coneDeg: 15 });

/** Farther off the plumb line than this nobody thinks of drips. */
const NEAR_DEG = 45;

/** Things that weep at their ports whether or not a line is drawn there: salt water on open terminals is heat, then fire. */
const WEEPING: ReadonlySet<string> = new Set(['strainer', 'filter', 'carbonFilter', 'membrane']);

/** Joints, bowls and caps weep in the end: what hangs over open terminals puts salt water on them. */
export const dripOnElectrics = defineRule({
  id: 'flooding/drip-on-electrics',
  question: 'Does no joint, bowl or cap hang over electrics that are open to drips?',
  gravest: 'danger',
  sources: [
    { key: 'iso-10133', clause: '5.1', standing: 'quoted' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Drips that run along a hose or a cable.',
    'Spray from a joint under pressure.',
    'Loose covers and trays.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => {
    const joined = new Set(
      facts.lineIds().flatMap((id) => {
        const line = facts.line(id);
        return line && isWet(line.medium) ? [line.from.thing, line.to.thing] : [];
      }),
    );
    return facts.thingIds().filter((id) => joined.has(id) || WEEPING.has(facts.thing(id)?.kind ?? ''));
  },
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    if (!thing || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const from = dripPoints(thing, pose, facts.envelope(id), wetPorts(id, facts));
    const below = electricsBelow(id, from, facts);
    const limit = LIMITS[facts.profile()].coneDeg;
    const unsure = below
      .filter(({ isOpen, landing }) => isOpen === null && landing.offDeg < limit)
      .map(
        ({ electric, landing }): Verdict => ({
          outcome: 'cannotTell',
          reason: 'drips',
          instance: electric,
          enterNext: `Enter how well ${nameOf(electric, facts)} stands water from above`,
          related: [electric],
          at: landing.at,
        }),
      );
    const sure = below.filter(({ isOpen }) => isOpen === true);
    const worst = sure[0] ? leastBy(sure[0], sure, ({ landing }) => landing.offDeg) : null;
    if (!worst) return unsure.length > 0 ? unsure : [{ outcome: 'notApplicable', reason: 'nothingBelow' }];
    const { electric, landing } = worst;
    const aside: Vec3 = [landing.asideM > 0 ? 1 : 0, 0, 0];
    const { met, ...compared } = judge({
      value: landing.offDeg,
      limit,
      bound: 'atLeast',
      unit: 'deg',
      grade: [...facts.gradesAlong(id, aside), ...facts.gradesAlong(electric, aside)].map((share) =>
        times(share, degreesPerMetre(landing)),
      ),
    });
    const said = {
      ...compared,
      related: [electric],
      at: landing.at,
      data: { electrics: electric, dropM: landing.dropM, asideM: landing.asideM },
    };
    return met
      ? [{ outcome: 'pass', ...said }, ...unsure]
      : [{ outcome: 'fail', severity: 'danger', reason: 'below', ...said }, ...unsure];
  },
  mends: fitCover,
});

/** Ports that carry water, by a line on them; of what weeps by itself also by their own medium, or where they say none. */
const wetPorts = (id: string, facts: Facts): readonly string[] => {
  const thing = facts.thing(id);
  const lines = facts.lineIds().flatMap((line) => facts.line(line) ?? []);
  return Object.keys(thing?.ports ?? {})
    .sort()
    .filter((port) => {
      const joined = lines.find(({ from, to }) => [from, to].some((end) => end.thing === id && end.port === port));
      if (joined) return isWet(joined.medium);
      const medium = thing?.ports[port]?.medium;
      return WEEPING.has(thing?.kind ?? '') && (medium === undefined || isWet(medium));
    });
};

interface Below {
  readonly electric: string;
  readonly landing: Landing;
  readonly isOpen: boolean | null;
}

/** Electrics under the drip points that nothing shelters, each where it is hit most plumb. */
function electricsBelow(id: string, from: readonly Vec3[], facts: Facts): readonly Below[] {
  return facts.thingIds().flatMap((electric): readonly Below[] => {
    const thing = facts.thing(electric);
    const isOpen = thing ? isOpenToWater(thing) : false;
    const solid = electric === id || isOpen === false ? null : facts.envelope(electric);
    if (!solid) return [];
    const landings = from.flatMap((point) => {
      const landing = landingOn(solid, point);
      return landing && landing.offDeg < NEAR_DEG && !isSheltered(point, landing.at, [id, electric], facts)
        ? [landing]
        : [];
    });
    const [first] = landings;
    if (!first) return [];
    return [{ electric, isOpen, landing: leastBy(first, landings, ({ offDeg }) => offDeg) }];
  });
}
