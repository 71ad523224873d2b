import { distanceToLeg } from '../../base/segment';
import { distance, type Vec3 } from '../../base/vec';
import { leastHole } from '../../runs/bundle';
import type { Crossing } from '../../runs/routing/types';
import type { Panel } from '../../shape/layout/types';
import { radiusOf } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';

/** Wood between two holes, and the share of a panel that may be drilled away. Common practice, from memory. */
const LIMITS = inBoth({ webM: 0.005, drilledShare: 0.1 });

/** A hole at the edge breaks out, two side by side become one, and what is forced through a full one chafes. */
export const holeCrowded = defineRule({
  id: 'runs/hole-crowded',
  question: 'Does every hole keep its distance from edges and other holes, and hold what passes it?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'fromMemory' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Holes that are not drawn.',
    'A panel that goes on beyond what is drawn of it.',
    'What a panel carries.',
    'How four and more lie best: only what can by no means pass is told.',
  ],
  hazards: [],
  subjects: (facts) => Object.keys(facts.layout().panels).sort(),
  check(panelId, facts): readonly Verdict[] {
    const panel = facts.layout().panels[panelId];
    if (!panel || panel.rule === 'open') return [{ outcome: 'notApplicable', reason: 'openPanel' }];
    const bored = boredIn(panel, facts);
    if (bored.length === 0) return [{ outcome: 'notApplicable', reason: 'noHole' }];
    const failing = [
      ...bored.flatMap((hole) => overfull(hole, facts)),
      ...bored.flatMap((hole) => atTheEdge(hole, panel)),
      ...tooNear(bored, facts),
      ...drilledAway(bored, panel, facts),
    ];
    if (failing.length > 0) return failing;
    // Runs that are led choose their panels: what they drill is told where it is amiss.
    if (panel.holes.length === 0) return [{ outcome: 'notApplicable', reason: 'noHole' }];
    const { met: _met, ...compared } = shareOf(bored, panel, facts);
    return [{ outcome: 'pass', ...compared, related: linesThrough(bored), at: bored[0]?.at ?? null }];
  },
  mends: widened,
});

/** A hole that is there, planned, or made by a run. */
interface Bored {
  readonly id: string;
  readonly at: Vec3;
  readonly diameterM: number;
  readonly isPlanned: boolean;
  readonly lines: readonly string[];
  readonly carried: readonly number[];
}

function boredIn(panel: Panel, facts: Facts): readonly Bored[] {
  const crossings = facts.crossingsOf(panel.id);
  const there = panel.holes.map(
    (hole): Bored => ({
      id: hole.newHoleId ?? hole.id,
      at: hole.at,
      diameterM: hole.diameterM,
      isPlanned: hole.planned ?? false,
      lines: crossings.filter(({ holeId }) => holeId === hole.id).map(({ line }) => line),
      carried: hole.carries.map(({ diameterM }) => diameterM),
    }),
  );
  const made = crossings
    .filter(({ holeId }) => holeId === null)
    .map(
      ({ line, ...crossing }): Bored => ({
        id: line,
        at: placeOf(crossing),
        diameterM: crossing.diameterM,
        isPlanned: facts.line(line)?.existing === false,
        lines: [line],
        carried: [],
      }),
    );
  return [...there, ...made];
}

const placeOf = ({ at, holeAt }: Crossing): Vec3 => holeAt ?? at;
const linesThrough = (bored: readonly Bored[]): readonly string[] => [...new Set(bored.flatMap(({ lines }) => lines))];

/** The hole itself, and what passes it; one that a run makes goes by its line. */
const named = ({ id, lines }: Bored): readonly string[] => [...new Set([id, ...lines])];

/** What passes one line alone is told by its own run. */
function overfull(hole: Bored, facts: Facts): readonly Verdict[] {
  const passing = [...hole.carried, ...hole.lines.map((line) => 2 * radiusOf(line, facts))];
  if (passing.length < 2 && hole.carried.length === 0) return [];
  const { met, ...compared } = judge({
    value: leastHole(passing),
    limit: hole.diameterM,
    bound: 'atMost',
    unit: 'm',
    grade: [],
  });
  if (met) return [];
  const data = { hole: hole.id, count: passing.length };
  const said = { instance: `full ${hole.id}`, related: named(hole), at: hole.at, data, isPlanned: hole.isPlanned };
  return [{ outcome: 'fail', severity: 'fault', reason: 'overfull', ...compared, ...said }];
}

/** Holes that are there already stand where they stand. */
function atTheEdge(hole: Bored, panel: Panel): readonly Verdict[] {
  if (!hole.isPlanned) return [];
  const nearest = Math.min(...panel.edges.map(([a, b]) => distanceToLeg(hole.at, a, b)));
  const { met, ...compared } = judge({
    value: nearest - hole.diameterM / 2,
    limit: panel.edgeM,
    bound: 'atLeast',
    unit: 'm',
    grade: [],
  });
  if (met) return [];
  const said = {
    instance: `edge ${hole.id}`,
    related: named(hole),
    at: hole.at,
    data: { hole: hole.id },
    isPlanned: true,
  };
  return [{ outcome: 'fail', severity: 'fault', reason: 'nearEdge', ...compared, ...said }];
}

function tooNear(bored: readonly Bored[], facts: Facts): readonly Verdict[] {
  const { webM } = LIMITS[facts.profile()];
  return bored.flatMap((one, k) =>
    bored.slice(k + 1).flatMap((other): Verdict[] => {
      if (!one.isPlanned && !other.isPlanned) return [];
      const { met, ...compared } = judge({
        value: distance(one.at, other.at) - (one.diameterM + other.diameterM) / 2,
        limit: webM,
        bound: 'atLeast',
        unit: 'm',
        grade: [],
      });
      if (met) return [];
      const said = {
        instance: `web ${one.id} ${other.id}`,
        related: [...new Set([...named(one), ...named(other)])],
        at: one.at,
        data: { hole: one.id, other: other.id },
        isPlanned: true,
      };
      return [{ outcome: 'fail', severity: 'advice', reason: 'nearHole', ...compared, ...said }];
    }),
  );
}

const shareOf = (bored: readonly Bored[], panel: Panel, facts: Facts): ReturnType<typeof judge> =>
  judge({
    value: bored.reduce((sum, { diameterM }) => sum + (Math.PI * diameterM * diameterM) / 4, 0) / panel.areaM2,
    limit: LIMITS[facts.profile()].drilledShare,
    bound: 'atMost',
    unit: 'share',
    grade: [],
  });

function drilledAway(bored: readonly Bored[], panel: Panel, facts: Facts): readonly Verdict[] {
  const { met, ...compared } = shareOf(bored, panel, facts);
  if (met || !bored.some(({ isPlanned }) => isPlanned)) return [];
  const said = {
    instance: 'share',
    related: linesThrough(bored),
    at: bored[0]?.at ?? null,
    data: { count: bored.length },
    isPlanned: true,
  };
  return [{ outcome: 'fail', severity: 'advice', reason: 'drilledAway', ...compared, ...said }];
}

/** Room that a hole has beyond what passes it, metres. */
const PLAY_M = 0.002;

/** The hole as wide as what passes it needs, in whole millimetres. */
function widened(
  { subject, reason, data, measured }: FailedFinding,
  { boat, arrangementId, facts }: MendingAt,
): readonly Mend[] {
  const { hole } = data;
  const dataId = facts.layout().panels[subject]?.dataId;
  if (reason !== 'overfull' || typeof hole !== 'string') return [];
  const fromM =
    boat.arrangements[arrangementId]?.newHoles[hole]?.diameterM ??
    (dataId === undefined ? undefined : boat.panels[dataId]?.holes[hole]?.diameterM);
  if (fromM === undefined) return [];
  const toM = Math.ceil((measured.value + PLAY_M) * 1000 - 1e-6) / 1000;
  return [
    {
      id: `widen ${subject} ${hole}`,
      change: 'widerHole',
      what: { panel: subject, fromM, toM },
      recipe: (draft) => {
        const planned = draft.arrangements[arrangementId]?.newHoles[hole];
        const there = dataId === undefined ? undefined : draft.panels[dataId]?.holes[hole];
        const bored = planned ?? there;
        if (bored) bored.diameterM = toM;
      },
    },
  ];
}
