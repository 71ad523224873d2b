import { dot } from '../../base/vec';
import { CLEAN_MARGIN, combine } from '../../boat/accuracy';
import type { Opening } from '../../boat/schema/boat';
import { type Passage, passOpening, type RoomBehind } from '../../shape/space/passing';
import { solidBounds } from '../../shape/space/things';
import { depthBehind, diagonalOf, sidesBehind, waysIn } from '../../shape/space/ways-in';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import { gradesOfBlocker } from '../grade-of-blocker';
import { judge, lessSure, slipUntil } from '../judge';
import { nameOf } from '../name-of';

/** Room behind an opening is looked for this much further than the part needs. */
const BEYOND_M = 0.05;

/** A part that does not pass its hatch stays on the pontoon. */
export const wayIn = defineRule({
  id: 'access/way-in',
  question: 'Does every part pass the openings to its place?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'carver-1957', standing: 'quoted' },
  ],
  cannotSee: [
    'Parts of the set that are fitted before it and stand in the way.',
    'The way from the deck to the cabin, unless it is drawn as the way in.',
    'Handles, hoses and brackets that stick out of the envelope.',
  ],
  // A union is screwed together in its panel, and stands in no compartment.
  hazards: [],
  subjects: (facts) =>
    facts.thingIds().filter((id) => facts.isPart(id) && facts.pose(id) && facts.thing(id)?.kind !== 'bulkheadUnion'),
  check(id, facts): readonly Verdict[] {
    const compartment = facts.compartmentOf(id);
    if (!compartment)
      return [
        {
          outcome: 'cannotTell',
          reason: 'nowhere',
          enterNext: `Draw the compartment that holds ${nameOf(id, facts)}`,
        },
      ];
    const chosen = facts.wayIn(id);
    const ways = (chosen ? [chosen] : waysTo(compartment, facts)).filter((way) =>
      way.every((opening) => isAtItsCompartment(opening, facts)),
    );
    if (ways.length === 0)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noWay',
          enterNext: `Draw the opening into ${facts.compartmentName(compartment)}`,
        },
      ];
    if (ways.some((way) => way.length === 0)) return [{ outcome: 'notApplicable', reason: 'standsThere' }];
    const tried = ways
      .map((way) => alongWay(id, way, facts))
      .sort((a, b) => RANK[a.passage.outcome] - RANK[b.passage.outcome] || b.passage.spareM - a.passage.spareM);
    const best = withPlaceDoubt(id, compartment, tried[0], facts);
    return [
      best
        ? verdictOf(id, best, facts)
        : {
            outcome: 'cannotTell',
            reason: 'noWay',
            enterNext: `Draw the opening into ${facts.compartmentName(compartment)}`,
          },
    ];
  },
});

/** A part that pokes through a side of its compartment may stand on the other side of it. */
function withPlaceDoubt(id: string, compartment: string, tried: Tried | undefined, facts: Facts): Tried | undefined {
  const at = facts.pose(id)?.at;
  const body = facts.solidsOf(id)[0];
  if (!tried || !at || !body) return tried;
  const { low, high } = solidBounds(body);
  const layout = facts.layout();
  const depths = (layout.cellsOf[compartment] ?? []).flatMap((index) =>
    (layout.cells[index]?.planes ?? []).flatMap(({ normal, offset }) => {
      const inside = offset - dot(normal, at);
      const half = [0, 1, 2].reduce(
        (sum, k) => sum + (Math.abs(normal[k] ?? 0) * ((high[k] ?? 0) - (low[k] ?? 0))) / 2,
        0,
      );
      return inside >= 0 && inside < half ? [inside] : [];
    }),
  );
  if (depths.length === 0) return tried;
  const insideM = Math.min(...depths);
  const doubt = { grade: [facts.gradeOf(compartment)], holds: (byM: number) => byM <= insideM };
  return { ...tried, doubts: [...tried.doubts, doubt] };
}

const RANK: Readonly<Record<Passage['outcome'], number>> = { passes: 0, cannotTell: 1, cannot: 2 };

/** An opening whose middle lies further than this from its compartment leads nowhere. */
const ASTRAY_M = 0.15;

function isAtItsCompartment(openingId: string, facts: Facts): boolean {
  const opening = facts.openings()[openingId];
  const layout = facts.layout();
  if (!opening) return false;
  return (layout.cellsOf[opening.compartment] ?? []).some((index) =>
    layout.cells[index]?.planes.every(({ normal, offset }) => dot(normal, opening.at) - offset <= ASTRAY_M),
  );
}

interface Tried {
  /** The opening that decides: the first that stops it, else the tightest. */
  readonly opening: string;
  readonly passage: Passage;
  /** What else the verdict hangs on: it holds as long as these sizes are no more than so much off. */
  readonly doubts: readonly { readonly grade: readonly GradeShare[]; readonly holds: (byM: number) => boolean }[];
}

const waysTo = (compartment: string, facts: Facts): (readonly string[])[] => {
  const layout = facts.layout();
  const kinds = Object.fromEntries(
    Object.keys(layout.cellsOf).map((id) => [id, { kind: facts.compartmentKind(id) ?? '' }]),
  );
  return waysIn(layout, { compartments: kinds, openings: facts.openings() }, compartment).map((way) => way.openings);
};

function alongWay(id: string, way: readonly string[], facts: Facts): Tried {
  const passed = way.map((opening) => throughOpening(id, opening, facts));
  const worst = passed.reduce((a, b) =>
    (RANK[b.passage.outcome] - RANK[a.passage.outcome] || a.passage.spareM - b.passage.spareM) > 0 ? b : a,
  );
  return worst;
}

function throughOpening(id: string, openingId: string, facts: Facts): Tried {
  const opening = facts.openings()[openingId] as Opening;
  const shape = facts.thing(id)?.shape;
  if (!opening || !shape)
    return { opening: openingId, passage: { outcome: 'cannotTell', spareM: 0, outsideM: 0, tried: [] }, doubts: [] };
  const bare = passOpening(shape, opening);
  if (bare.outcome !== 'passes') {
    const doubts = [...sizesOf(id, facts), ...clearSizesOf(id, openingId, bare.spareM, facts)];
    const within = (byM: number) => passOpening(shape, larger(opening, byM)).outcome === bare.outcome;
    return { opening: openingId, passage: bare, doubts: [{ grade: doubts, holds: within }] };
  }
  const layout = facts.layout();
  const bounds = boundsOf(opening.compartment, facts);
  // only what is aboard already: the order in which the set is fitted is not known here
  const solids = facts
    .fixedSolidsIn(bounds.low, bounds.high)
    .filter((solid) => solid.owner !== id && solid.layer !== 'serviceKeepOut' && solid.layer !== 'run');
  const around = { layout, hull: facts.hull(), solids };
  const section = alongOpening(bare.leadingM, opening);
  const behind = depthBehind(opening, section, bare.alongM + BEYOND_M, around);
  const depthM = behind.freeM;
  const thickness = Math.min(...bare.leadingM);
  const room: RoomBehind = {
    depthM,
    diagonalM: diagonalOf(layout, opening.compartment),
    ...(depthM < bare.alongM
      ? { sidesM: sidesBehind(opening, thickness, depthM, bare.alongM + BEYOND_M, around) }
      : {}),
  };
  const passage = passOpening(shape, opening, room);
  if (!behind.blocker) return { opening: openingId, passage, doubts: [] };
  const grade = [...sizesOf(id, facts), ...gradesOfBlocker(behind.blocker, opening.normal, facts)];
  const sign = passage.outcome === 'passes' ? -1 : 1;
  const within = (byM: number) => passOpening(shape, opening, deeper(room, sign * byM)).outcome === passage.outcome;
  return { opening: openingId, passage, doubts: [{ grade, holds: within }] };
}

/** A part counts with the one size that decides; which that is, is not asked. */
const sizesOf = (id: string, facts: Facts): readonly GradeShare[] => [facts.gradeOf(id)];

/**
 * The clear sizes of an opening that the verdict hangs on. A side that may be as far off as leaves a verdict unclean without
 * moving the spare room does not bind: a high door is no doubt of a narrow one.
 */
function clearSizesOf(id: string, openingId: string, spareM: number, facts: Facts): readonly GradeShare[] {
  const opening = facts.openings()[openingId];
  const shape = facts.thing(id)?.shape;
  const both = (['widthM', 'heightM'] as const).map((side) => ({ side, share: facts.gradeOf(openingId, side) }));
  const all = both.map(({ share }) => share);
  if (!opening || !shape) return all;
  if (Math.abs(spareM) > CLEAN_MARGIN * combine(...[...sizesOf(id, facts), ...all].map(({ gradeM }) => gradeM)))
    return all;
  const bare = passOpening(shape, opening);
  const binding = both.filter(({ side, share }) =>
    [-1, 1].some((sign) => {
      const slipped = Math.max(LEAST_SIDE_M, opening[side] + sign * CLEAN_MARGIN * share.gradeM);
      const passage = passOpening(shape, { ...opening, [side]: slipped });
      return passage.outcome !== bare.outcome || Math.abs(passage.spareM - bare.spareM) > SAME_SPARE_M;
    }),
  );
  return binding.length > 0 ? binding.map(({ share }) => share) : all;
}

const LEAST_SIDE_M = 0.001;
const SAME_SPARE_M = 1e-6;

const larger = (opening: Opening, byM: number): Opening => ({
  ...opening,
  widthM: opening.widthM + byM,
  heightM: opening.heightM + byM,
});

function deeper(room: RoomBehind, byM: number): RoomBehind {
  const grown = (value: number): number => Math.max(0, value + byM);
  const { sidesM, diagonalM } = room;
  return {
    depthM: grown(room.depthM),
    ...(diagonalM === undefined ? {} : { diagonalM: grown(diagonalM) }),
    ...(sidesM ? { sidesM: [grown(sidesM[0]), grown(sidesM[1]), grown(sidesM[2]), grown(sidesM[3])] } : {}),
  };
}

/** Leading sides as [across the width, along the height]: the longer one lies along the longer side of the opening. */
function alongOpening(leadingM: readonly [number, number], opening: Opening): readonly [number, number] {
  const [short, long] = [Math.min(...leadingM), Math.max(...leadingM)];
  return opening.widthM >= opening.heightM ? [long, short] : [short, long];
}

function boundsOf(compartment: string, facts: Facts) {
  const layout = facts.layout();
  const low: [number, number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high: [number, number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const index of layout.cellsOf[compartment] ?? []) {
    const cell = layout.cells[index];
    for (const k of [0, 1, 2] as const) {
      low[k] = Math.min(low[k], cell?.low[k] ?? low[k]);
      high[k] = Math.max(high[k], cell?.high[k] ?? high[k]);
    }
  }
  return { low, high };
}

function verdictOf(id: string, { opening, passage, doubts }: Tried, facts: Facts): Verdict {
  const name = facts.openings()[opening]?.name ?? opening;
  const at = facts.openings()[opening]?.at ?? null;
  const grade = [...sizesOf(id, facts), ...clearSizesOf(id, opening, passage.spareM, facts)];
  const spare = judge({ value: passage.spareM, limit: 0, bound: 'atLeast', unit: 'm', grade });
  const sign = passage.outcome === 'passes' ? 1 : -1;
  const worst = doubts.reduce((least, { grade: shares, holds }) => {
    const most = CLEAN_MARGIN * combine(...shares.map(({ gradeM }) => gradeM));
    const slipM = slipUntil(holds, most);
    if (slipM >= most) return least;
    return lessSure(least, judge({ value: sign * slipM, limit: 0, bound: 'atLeast', unit: 'm', grade: shares }));
  }, spare);
  const { met: _met, ...compared } = { ...worst, measured: spare.measured };
  const verdict = { related: [opening], at, data: { blocker: opening, opening: name, spareM: passage.spareM } };
  if (passage.outcome === 'passes')
    return {
      outcome: 'pass',
      ...compared,
      ...verdict,
      data: { ...verdict.data, how: passage.how, turnedDeg: passage.turnedDeg },
    };
  if (passage.outcome === 'cannot') {
    const reason = passage.proof === 'length' ? 'noRoomBehind' : 'tooBig';
    return { outcome: 'fail', severity: 'fault', reason, ...compared, ...verdict };
  }
  return {
    outcome: 'cannotTell',
    reason: 'notFound',
    enterNext: `Try it with a cardboard mock-up at ${name}`,
    ...verdict,
    data: { ...verdict.data, outsideM: passage.outsideM, tried: passage.tried.join(', ') },
  };
}
