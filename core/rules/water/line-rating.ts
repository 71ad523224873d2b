import { pressedLines, productLines } from '../../assess/water/lines';
import { pointInBoat } from '../../base/vec';
import { LINE_KINDS, lineKindOf } from '../../boat/catalogue/line-kinds';
import type { Line, LineKind } from '../../boat/schema/boat';
import { heightAbove } from '../../shape/hull/attitude';
import { countedFaults } from '../counted';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { linesAt } from '../lines-at';
import type { Mend } from '../mend';
import { kindChanged } from '../mend-recipes';
import { nameOf } from '../name-of';

/**
 * Working pressure of a hose as a share of what the set works at, and of what its relief opens at: the burst pressure of the standard is four
 * times that again. Where the set says nothing, 55 bar; what counts as a pressure hose on suction, bar. Common practice, no source.
 */
const LIMITS = inBoth({ share: 1, usualBar: 55, stiffBar: 20 });

/** A hose that is not made for what it carries bursts, collapses, or tastes. */
export const lineRating = defineRule({
  id: 'water/line-rating',
  question: 'Is every hose and tube made for what it carries?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'en-853', standing: 'quoted' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  limits: LIMITS,
  gravest: 'danger',
  cannotSee: ['How old a hose is.', 'Whether what was bought is what is drawn.', 'Hose that is chafed or kinked.'],
  hazards: [],
  subjects: (facts) => facts.lineIds().filter((id) => CARRIES.has(facts.line(id)?.medium ?? '')),
  check(lineId, facts): readonly Verdict[] {
    const line = facts.line(lineId);
    const kind = line && facts.lineKind(line.kind);
    if (!line || !kind) return [{ outcome: 'notApplicable', reason: 'noKind' }];
    const verdicts = [
      ...pressure(lineId, kind, facts),
      ...suction(lineId, line, kind, facts),
      ...potable(lineId, line, kind, facts),
      ...metal(lineId, line, kind, facts),
    ];
    return verdicts.length > 0 ? verdicts : [{ outcome: 'notApplicable', reason: 'nothingAsked' }];
  },
  mends({ subject, reason, limit }, { boat }): readonly Mend[] {
    const line = boat.lines[subject];
    const kind = line && lineKindOf(boat.lineKinds, line.kind);
    if (!line || !kind) return [];
    const suits: (one: LineKind) => boolean =
      reason === 'tooWeak' || reason === 'belowRelief'
        ? (one) => (one.pressureBar ?? 0) >= limit.value && one.what === 'hose'
        : reason === 'collapses' || reason === 'pushFit'
          ? (one) => one.suction === true && one.what === 'hose'
          : (one) => one.potable === true;
    return Object.entries({ ...LINE_KINDS, ...boat.lineKinds })
      .filter(([id, one]) => id !== line.kind && one.boreM !== undefined && suits(one))
      .map(([id, one]) => ({ id, offM: Math.abs((one.boreM ?? 0) - (kind.boreM ?? 0)) }))
      .sort((a, b) => a.offM - b.offM || (a.id < b.id ? -1 : 1))
      .slice(0, 2)
      .map(({ id }) => ({
        id: `kind ${id}`,
        change: 'kind',
        what: { line: subject, from: line.kind, to: id },
        recipe: kindChanged(subject, id),
      }));
  },
});

const CARRIES: ReadonlySet<string> = new Set(['seaWater', 'brine', 'product', 'freshWater']);

/** Between the pressure pump and what lets the pressure off. */
function pressure(lineId: string, kind: LineKind, facts: Facts): Verdict[] {
  const pump = pressedLines(facts.circuit()).get(lineId);
  if (pump === undefined) return [];
  const { share, usualBar } = LIMITS[facts.profile()];
  const thing = facts.thing(pump);
  const worksBar = thing?.workingBar ?? usualBar;
  const mostBar = Math.max(worksBar, thing?.relief?.opensBar ?? 0);
  const compared = {
    measured: { value: kind.pressureBar ?? 0, unit: 'bar' },
    limit: { value: share * mostBar, unit: 'bar', bound: 'atLeast' },
  } as const;
  const said = {
    ...compared,
    instance: 'pressure',
    related: [pump],
    hazards: ['highPressure'] as const,
    data: {
      kind: kind.name,
      worksBar,
      isTypical: thing?.workingBar === undefined,
      isNone: kind.pressureBar === undefined,
    },
  };
  if (compared.measured.value >= compared.limit.value) return [{ outcome: 'pass', ...said }];
  // It bears every day's pressure; what the relief opens at comes when something is blocked.
  if (compared.measured.value >= share * worksBar)
    return [{ outcome: 'fail', severity: 'fault', reason: 'belowRelief', ...said }];
  return [{ outcome: 'fail', severity: 'danger', reason: 'tooWeak', ...said }];
}

function suction(lineId: string, line: Line, kind: LineKind, facts: Facts): Verdict[] {
  if (!facts.isSuction(lineId)) return [];
  const related = [line.from.thing, line.to.thing];
  const said = { instance: 'suction', related, hazards: ['hullHole'] as const, data: { kind: kind.name } };
  if (isPushFit(kind)) {
    const isWet = related.some((id) => isUnderWater(id, facts));
    return [
      {
        outcome: 'fail',
        severity: isWet ? 'danger' : 'fault',
        reason: 'pushFit',
        ...countedFaults(1),
        ...said,
      },
    ];
  }
  if (kind.suction === true || (kind.pressureBar ?? 0) >= LIMITS[facts.profile()].stiffBar)
    return [{ outcome: 'pass', ...countedFaults(0), ...said }];
  if (kind.suction === false)
    return [{ outcome: 'fail', severity: 'fault', reason: 'collapses', ...countedFaults(1), ...said }];
  return [
    {
      outcome: 'cannotTell',
      reason: 'suctionUnknown',
      enterNext: `Enter whether ${kind.name} may be used on suction`,
      ...said,
    },
  ];
}

/** Tube that is pushed into its fittings holds neither a vacuum nor the sea. */
const isPushFit = (kind: LineKind): boolean =>
  kind.what === 'tube' && ((kind.straightM ?? 0) > 0 || /push/i.test(`${kind.name} ${kind.end?.name ?? ''}`));

function isUnderWater(id: string, facts: Facts): boolean {
  const pose = facts.pose(id);
  const thing = facts.thing(id);
  if (!pose || !thing) return false;
  const points = Object.values(thing.ports).map((port) => pointInBoat(pose, port.at));
  return facts.greatestHeelWaters().some(({ water }) => points.some((at) => heightAbove(water, at) < 0));
}

function potable(lineId: string, line: Line, kind: LineKind, facts: Facts): Verdict[] {
  const isProduct = productLines(facts.circuit()).has(lineId);
  if (!isProduct && line.medium !== 'freshWater') return [];
  const related = [line.from.thing, line.to.thing];
  const said = { instance: 'potable', related, hazards: ['drinkingWater'] as const, data: { kind: kind.name } };
  if (kind.potable === true) return [{ outcome: 'pass', ...countedFaults(0), ...said }];
  if (kind.potable === false)
    return [{ outcome: 'fail', severity: 'fault', reason: 'notPotable', ...countedFaults(1), ...said }];
  if (!isProduct) return [];
  return [
    {
      outcome: 'cannotTell',
      reason: 'potableUnknown',
      enterNext: `Enter whether ${kind.name} may carry drinking water`,
      ...said,
    },
  ];
}

/** Metals that rot in sea water, or foul the membrane with what they give off. */
const FOUL_METALS: ReadonlySet<string> = new Set(['brass', 'copper', 'galvanised', 'carbonSteel']);

/** The hose itself, and the fittings at its ends that are not through-hulls; each is told of once, at the first of its lines. */
function metal(lineId: string, line: Line, kind: LineKind, facts: Facts): Verdict[] {
  const isFeed = facts.isSuction(lineId) || pressedLines(facts.circuit()).has(lineId);
  if (!isFeed && !productLines(facts.circuit()).has(lineId)) return [];
  const ends = [line.from.thing, line.to.thing].filter((id) => {
    const thing = facts.thing(id);
    const isFoul = thing?.opensToSea === undefined && FOUL_METALS.has(thing?.material ?? '');
    return isFoul && firstLineOf(id, facts) === lineId;
  });
  const own = kind.material !== undefined && FOUL_METALS.has(kind.material);
  const known = kind.material !== undefined || [line.from.thing, line.to.thing].some((id) => facts.thing(id)?.material);
  if (!known) return [];
  const instance = 'metal';
  const data = {
    kind: kind.name,
    metals: [
      ...(own ? [`${kind.name} (${METAL_WORDS[kind.material ?? ''] ?? ''})`] : []),
      ...ends.map((id) => `${nameOf(id, facts)} (${METAL_WORDS[facts.thing(id)?.material ?? ''] ?? ''})`),
    ].join(', '),
  };
  const sources = [
    { key: 'ufc-3-230-12a', clause: '7-6', standing: 'published' },
    { key: 'practice', standing: 'commonPractice' },
  ] as const;
  const related = ends.length > 0 ? ends : [line.from.thing, line.to.thing];
  if (!own && ends.length === 0) return [{ outcome: 'pass', instance, ...countedFaults(0), related, data, sources }];
  return [
    {
      outcome: 'fail',
      severity: 'fault',
      reason: 'foulMetal',
      instance,
      ...countedFaults((own ? 1 : 0) + ends.length),
      related,
      data,
      sources,
    },
  ];
}

const METAL_WORDS: Readonly<Record<string, string>> = {
  brass: 'plain brass',
  copper: 'copper',
  galvanised: 'galvanised',
  carbonSteel: 'carbon steel',
};

const firstLineOf = (id: string, facts: Facts): string | undefined => {
  const circuit = facts.circuit();
  const pressed = pressedLines(circuit);
  const product = productLines(circuit);
  return linesAt(id, facts).find((lineId) => facts.isSuction(lineId) || pressed.has(lineId) || product.has(lineId));
};
