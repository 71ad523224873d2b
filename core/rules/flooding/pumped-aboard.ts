import {
  type BilgeCapacity,
  bilgeCapacity,
  pressedLines,
  pressedMedia,
  tanksBehind,
} from '../../assess/flooding/pumped';
import { inOrder } from '../../base/order';
import { pointInBoat } from '../../base/vec';
import { saysOfBilges } from '../bilges';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { pathOf } from '../name-of';

/** Half of a bilge pump's label is left of it as fitted; a pump that says nothing counts with the least flow that is asked of any. */
const LIMITS = inBoth({ pumpShare: 0.5, leastLMin: 10 });

/** A hose that comes off while its pump runs empties the sea, or the tank, into the boat: above the waterline as well as below. */
export const pumpedAboard = defineRule({
  id: 'flooding/pumped-aboard',
  question: 'When a hose comes off while its pump runs, can the bilge pumps keep up with what it pumps aboard?',
  sources: [
    { key: 'iso-15083', standing: 'quoted' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Whether somebody hears the pump run on.',
    'Whether the bilge pump works, its strainer is clear and its float free.',
    'Where water runs over edges that are not drawn.',
  ],
  hazards: ['hullHole', 'dcFault'],
  subjects: (facts) => facts.thingIds().filter((id) => pressedMedia(facts.thing(id)?.kind ?? '') !== null),
  check(pump, facts): readonly Verdict[] {
    const thing = facts.thing(pump);
    const media = pressedMedia(thing?.kind ?? '');
    if (!thing || !media || !facts.pose(pump)) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const lines = pressedLines(facts.circuit(), pump, media);
    const joints = lines.flatMap((line) => jointsOf(line, facts));
    if (joints.length === 0) return [{ outcome: 'notApplicable', reason: 'noPressedLine' }];
    const cases = inOrder(facts.flooding()?.cases ?? {}).filter(
      ([, { kind, subject }]) => kind === 'poweredLine' && isAbout(subject, pump, lines),
    );
    // where no bilge is drawn, and nobody asks, nothing is known of how water leaves her
    if (cases.length === 0 && !saysOfBilges(facts)) return [{ outcome: 'notApplicable', reason: 'noBilgeDrawn' }];
    if (thing.flowLMin === undefined)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noFlow',
          enterNext: `Enter the flow of ${thing.name}`,
          missing: { path: pathOf(pump, 'flowLMin', facts), unit: 'LMin' },
          related: lines,
        },
      ];
    const flooded = { pump, lines, joints, flowLMin: thing.flowLMin };
    return [
      judgeCase(flooded, { crew: 'aboard', limbersBlocked: false, bilgePumpDead: false }, facts),
      ...cases.map(([id, { crew = 'aboard', limbersBlocked = false, bilgePumpDead = false }]) => ({
        ...judgeCase(flooded, { crew, limbersBlocked, bilgePumpDead }, facts),
        instance: id,
      })),
    ];
  },
});

const isAbout = (subject: string | undefined, pump: string, lines: readonly string[]): boolean =>
  subject === undefined || subject === pump || lines.includes(subject);

interface Joint {
  readonly line: string;
  readonly compartment: string;
}

/** Ends of a line that lie in a compartment. */
function jointsOf(lineId: string, facts: Facts): readonly Joint[] {
  const line = facts.line(lineId);
  if (!line) return [];
  return [line.from, line.to].flatMap((end): readonly Joint[] => {
    const pose = facts.pose(end.thing);
    const port = facts.thing(end.thing)?.ports[end.port];
    if (!pose || !port) return [];
    const at = pointInBoat(pose, port.at);
    const compartment = facts.layout().compartmentAt(at) ?? facts.compartmentOf(end.thing);
    return compartment === null ? [] : [{ line: lineId, compartment }];
  });
}

interface Flooded {
  readonly pump: string;
  readonly lines: readonly string[];
  readonly joints: readonly Joint[];
  readonly flowLMin: number;
}

interface Case {
  readonly crew: 'aboard' | 'asleep' | 'away';
  readonly limbersBlocked: boolean;
  readonly bilgePumpDead: boolean;
}

/** The compartment in which the bilge pumps can do least. */
function judgeCase({ pump, lines, joints, flowLMin }: Flooded, how: Case, facts: Facts): Verdict {
  const { pumpShare = 0, leastLMin = 0 } = LIMITS[facts.profile()];
  const bilgePumps = facts.thingIds().flatMap((id) => {
    const thing = facts.thing(id);
    return thing?.kind === 'bilgePump' ? [{ id, thing, compartment: facts.compartmentOf(id) }] : [];
  });
  const room = {
    ways: facts.waterways(how.limbersBlocked ? 'blocked' : 'clear'),
    bilgePumps,
    isPumped: (id: string) => facts.compartment(id)?.bilgePumped === true,
    crew: how.crew,
    isDead: how.bilgePumpDead,
    pumpShare,
    leastLMin,
  };
  const compartments = [...new Set(joints.map(({ compartment }) => compartment))].sort();
  const found = compartments.map((compartment) => ({ compartment, can: bilgeCapacity(compartment, room) }));
  const worst = found.reduce((least, one) => (one.can.LMin < least.can.LMin ? one : least));
  const { met, ...compared } = judge({
    value: flowLMin,
    limit: worst.can.LMin,
    bound: 'atMost',
    unit: 'LMin',
    grade: [],
  });
  const said = {
    ...compared,
    related: relatedTo(lines, worst),
    at: facts.pose(pump)?.at ?? null,
    data: {
      compartment: worst.compartment,
      pumpedIn: worst.can.pumpedIn,
      lines: lines.join(' '),
      crew: how.crew,
      tankL: tanksBehind(facts.circuit(), pump),
      isSet: facts.thing(pump)?.kind !== 'freshPump',
    },
  };
  if (met) return { outcome: 'pass', ...said };
  return how.crew === 'aboard'
    ? { outcome: 'fail', severity: 'advice', reason: 'tooMuch', ...said }
    : { outcome: 'fail', severity: 'fault', reason: 'nobodyThere', ...said };
}

const relatedTo = (
  lines: readonly string[],
  { compartment, can }: { readonly compartment: string; readonly can: BilgeCapacity },
): readonly string[] => [...new Set([...lines, compartment, ...can.pumps, ...(can.pumpedIn ? [can.pumpedIn] : [])])];
