import { leastBy } from '../../base/order';
import type { LineKind } from '../../boat/schema/boat';
import { straightFrom } from '../../runs/end-straight';
import type { Routed } from '../../runs/routing/types';
import { kindOfLine, runOrNone } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';

/** Straight lengths behind a fitting in outside diameters: of pushed-in tube common practice, behind a crimped end quoted, and weak. */
const LIMITS = inBoth({ tubeDiameters: 5, crimpDiameters: 1.5 });

/** A tube that bends right behind its fitting lifts the seal; a hose that bends at its ferrule breaks there. */
export const bendAtFitting = defineRule({
  id: 'runs/bend-at-fitting',
  question: 'Does every tube and made-up hose leave its fittings straight?',
  sources: [
    { key: 'practice', standing: 'fromMemory' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Where a made-up hose will bend that is not pinned yet: it keeps what its kind asks.',
    'How a hose hangs between its clips.',
    'Side load by what leans on it.',
    'Springs and sleeves at the fitting.',
  ],
  hazards: [],
  subjects: (facts) => facts.lineIds(),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const kind = kindOfLine(lineId, facts);
    if (!kind) return [{ outcome: 'notApplicable', reason: 'softHose' }];
    const ends = (['from', 'to'] as const).flatMap((end) => endOf(lineId, kind, run, end, facts));
    const [first, ...rest] = ends;
    if (!first) return [{ outcome: 'notApplicable', reason: 'softHose' }];
    const failing = ends.filter(({ outcome }) => outcome === 'fail');
    return failing.length > 0 ? failing : [leastBy(first, rest, margin)];
  },
  mends: saidByKind,
});

const margin = (verdict: Verdict): number =>
  'measured' in verdict ? verdict.measured.value - verdict.limit.value : Number.POSITIVE_INFINITY;

/** The straight behind the fitting of one end against what the port and the kind ask, or what is usual for it. */
function endOf(lineId: string, kind: LineKind, run: Routed, end: 'from' | 'to', facts: Facts): readonly Verdict[] {
  const line = facts.line(lineId);
  if (!line) return [];
  // Of a run kept as built that is told already.
  if (run.pinned?.some((fault) => fault.kind === 'lead' && fault.end === end)) return [];
  const fitting = line.ends[end] ?? kind.end;
  if ((fitting?.angleDeg ?? 0) !== 0) return [];
  const port = facts.thing(line[end].thing)?.ports[line[end].port];
  const { tubeDiameters, crimpDiameters } = LIMITS[facts.profile()];
  // A made-up hose that is still to be led keeps what its kind asks; of one that lies the place of its bend is known.
  const isCrimped =
    run.pinned !== undefined && kind.what === 'hose' && (kind.crimpedEnds || (fitting?.crimped ?? false));
  const usual = kind.what === 'tube' ? tubeDiameters : isCrimped ? crimpDiameters : 0;
  const askedM = (port?.straightM ?? 0) + (kind.straightM ?? usual * kind.outsideM);
  if (askedM <= 0) return [];
  const { met, ...compared } = judge({
    value: Math.max(0, straightFrom(run.prims, end) - (fitting?.rigidM ?? 0)),
    limit: askedM,
    bound: 'atLeast',
    unit: 'm',
    grade: [],
  });
  const thing = line[end].thing;
  const at = run.prims.at(end === 'from' ? 0 : -1)?.[end === 'from' ? 'from' : 'to'] ?? null;
  const data = { thing, what: kind.what };
  const said = { instance: end, ...compared, related: [thing], at, data };
  if (met) return [{ outcome: 'pass', ...said }];
  return [
    kind.what === 'tube'
      ? { outcome: 'fail', severity: 'fault', reason: 'tubeBends', ...said }
      : { outcome: 'fail', severity: 'advice', reason: 'hoseBends', ...said },
  ];
}

/** The straight that is wanted said of the kind: the router then keeps it. Runs kept as built stay as they are. */
function saidByKind({ subject, limit }: FailedFinding, { boat, arrangementId }: MendingAt): readonly Mend[] {
  const kind = boat.lines[subject]?.kind ?? '';
  const isPinned = Object.hasOwn(boat.arrangements[arrangementId]?.pins ?? {}, subject);
  if (isPinned || !Object.hasOwn(boat.lineKinds, kind)) return [];
  return [
    {
      id: `straight ${kind}`,
      change: 'value',
      what: { id: subject, field: 'straightM', to: limit.value },
      recipe: (draft) => {
        const own = draft.lineKinds[kind];
        if (own) own.straightM = limit.value;
      },
    },
  ];
}
