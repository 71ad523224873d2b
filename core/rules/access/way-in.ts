import type { GettingIn } from '../../assess/access/getting-in/getting-in';
import * as portable from '../../base/portable';
import { dot } from '../../base/vec';
import { CLEAN_MARGIN, combine } from '../../boat/accuracy';
import type { Opening, Shape } from '../../boat/schema/boat';
import { type Passage, passOpening } from '../../shape/space/passing';
import { solidBounds } from '../../shape/space/things';
import { diagonalOf } from '../../shape/space/ways-in';
import { defineRule, type Verdict, type VerdictData } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import { gradesOfBlocker } from '../grade-of-blocker';
import { type Judged, judge, lessSure, slipUntil } from '../judge';
import { leastLifted, standingPlacesFor } from '../lifted-part';
import { nameOf } from '../name-of';

/** Poses that are looked at where no straight move does: at once, and in the report with the deeper tries. */
const QUICK_LOOKS = 600;
const DEEP_LOOKS = 4000;

/** A part that does not pass its hatch stays on the pontoon. */
export const wayIn = defineRule({
  id: 'access/way-in',
  question: 'Does every part get in through the openings to its place?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'carver-1957', standing: 'quoted' },
    { key: 'niosh-94-110', standing: 'quoted' },
  ],
  cannotSee: [
    'Parts of the set that are fitted before it and stand in the way: access/way-out asks that the other way round.',
    'The way from the deck to the cabin, unless it is drawn as the way in.',
    'Handles, hoses and brackets that stick out of the envelope; hands that hold it.',
  ],
  // A union is screwed together in its panel, and stands in no compartment.
  hazards: [],
  subjects: (facts) =>
    facts.thingIds().filter((id) => facts.isPart(id) && facts.pose(id) && facts.thing(id)?.kind !== 'bulkheadUnion'),
  check(id, facts): readonly Verdict[] {
    const tooLarge = largerThanBoat(id, facts);
    if (tooLarge) return [tooLarge];
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
    const ways = (chosen ? [chosen] : facts.waysTo(compartment)).filter((way) =>
      way.every((opening) => isAtItsCompartment(opening, facts)),
    );
    if (ways.length === 0) return [withoutWay(compartment, facts)];
    if (ways.some((way) => way.length === 0)) return [{ outcome: 'notApplicable', reason: 'standsThere' }];
    let best: Tried | null = null;
    for (const way of ways) {
      const tried = alongWay(id, compartment, way, facts);
      if (!best || isBetter(tried, best)) best = tried;
      if (best.rank === 0 && !best.judged?.closeCall) break;
    }
    return best ? [best.verdict] : [];
  },
});

/** Longer than the boat from corner to corner: no opening needs to be asked. */
function largerThanBoat(id: string, facts: Facts): Verdict | null {
  const shape = facts.thing(id)?.shape;
  const hull = facts.hull();
  const { cells } = facts.layout();
  if (!shape || (cells.length === 0 && !hull)) return null;
  const longestM = Math.max(...sidesOf(shape));
  const spans = ([0, 1, 2] as const).map((k) => {
    const low = Math.min(...cells.map((cell) => cell.low[k]), ...(hull && k === 0 ? [hull.aftM] : []));
    const high = Math.max(...cells.map((cell) => cell.high[k]), ...(hull && k === 0 ? [hull.forwardM] : []));
    return Math.max(0, high - low);
  });
  const boatM = portable.hypot(...spans);
  if (longestM <= boatM) return null;
  const { met: _met, ...compared } = judge({
    value: boatM - longestM,
    limit: 0,
    bound: 'atLeast',
    unit: 'm',
    grade: sizesOf(id, facts),
  });
  return {
    outcome: 'fail',
    severity: 'fault',
    reason: 'largerThanBoat',
    ...compared,
    data: { longestM, boatM, spareM: boatM - longestM },
  };
}

const sidesOf = (shape: Shape): readonly number[] =>
  shape.type === 'box' ? shape.sizeM : [shape.diameterM, shape.diameterM, shape.lengthM];

/** Why nothing leads to a compartment: no opening, one that opens into nothing, or nowhere to stand before it. */
function withoutWay(compartment: string, facts: Facts): Verdict {
  const name = facts.compartmentName(compartment);
  const into = Object.entries(facts.openings())
    .filter(([, opening]) => opening.compartment === compartment || opening.to === compartment)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  const astray = into.find(([opening]) => !isAtItsCompartment(opening, facts));
  if (astray) {
    const [opening, { name: label, at, compartment: opened }] = astray;
    return {
      outcome: 'cannotTell',
      reason: 'intoNothing',
      enterNext: `Put ${label} where it is: in a side of ${facts.compartmentName(opened)}`,
      related: [opening],
      at: [...at],
      data: { blocker: opening, compartment: name },
    };
  }
  const [first] = into;
  if (!first)
    return {
      outcome: 'cannotTell',
      reason: 'noWay',
      enterNext: `Draw the opening into ${name}`,
      data: { compartment: name },
    };
  return {
    outcome: 'cannotTell',
    reason: 'nowhereToStand',
    enterNext: `Draw what leads to ${first[1].name} from where a person stands, or say that it opens from outside`,
    related: [first[0]],
    at: [...first[1].at],
    data: { blocker: first[0], compartment: name },
  };
}

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
  /** 0 goes in, 1 not found, 2 cannot. */
  readonly rank: 0 | 1 | 2;
  readonly spareM: number;
  readonly judged: Judged | null;
  readonly verdict: Verdict;
}

const isBetter = (a: Tried, b: Tried): boolean => a.rank < b.rank || (a.rank === b.rank && a.spareM > b.spareM);

interface Through {
  readonly opening: string;
  readonly passage: Passage;
}

const PASSAGE_RANK: Readonly<Record<Passage['outcome'], 0 | 1 | 2>> = { passes: 0, cannotTell: 1, cannot: 2 };

/** By the sizes of the openings, then by a move that is looked for. */
function alongWay(id: string, compartment: string, way: readonly string[], facts: Facts): Tried {
  const shape = facts.thing(id)?.shape as Shape;
  const passed = way.map((opening): Through => {
    const record = facts.openings()[opening] as Opening;
    return { opening, passage: passOpening(shape, record) };
  });
  const worst = passed.reduce((a, b) =>
    PASSAGE_RANK[b.passage.outcome] > PASSAGE_RANK[a.passage.outcome] ||
    (b.passage.outcome === a.passage.outcome && b.passage.spareM < a.passage.spareM)
      ? b
      : a,
  );
  if (worst.passage.outcome === 'cannot') return proved(id, worst, 'tooBig', worst.passage.spareM, facts);
  const longestM = Math.max(...sidesOf(shape));
  const diagonalM = diagonalOf(facts.layout(), compartment);
  if (longestM > diagonalM) return proved(id, worst, 'noRoomBehind', diagonalM - longestM, facts);

  const wantedM = wantedFor(id, compartment, way, facts);
  const quick = facts.carriedIn(id, way, { looks: 0, wantedM });
  const found = isSettled(quick, worst.passage, wantedM) ? quick : searched(id, way, wantedM, facts);
  if (found?.outcome === 'goesIn') return carried(id, compartment, found, turnIn(worst.passage), facts);
  if (found?.outcome === 'cannot' && found.proof === 'ball')
    return proved(id, worst, 'noRoomOnWay', -(found.missingM ?? 0), facts);
  // Who stands where the part is to stand is said by access/overlap: the openings are judged all the same.
  if (found?.outcome !== 'notFound' && worst.passage.outcome === 'passes')
    return throughOpenings(id, compartment, worst, found?.by?.owner ?? null, facts);
  return notFound(id, worst, way, wantedM, found, facts);
}

/** Nothing more is to be looked for: it goes in with room enough, or turned otherwise it would have no more; or it is proved that it does not. */
function isSettled(quick: GettingIn | null, best: Passage, wantedM: number): boolean {
  if (quick?.outcome !== 'goesIn') return quick?.outcome !== 'notFound';
  return quick.gate.spareM >= Math.min(wantedM, best.spareM - SAME_SPARE_M);
}

function searched(id: string, way: readonly string[], wantedM: number, facts: Facts): GettingIn | null {
  return facts.isDeeper()
    ? facts.carriedIn(id, way, { looks: DEEP_LOOKS, wantedM, explains: true })
    : facts.carriedIn(id, way, { looks: QUICK_LOOKS, wantedM });
}

/** Turn in the plane of the opening in which a part passes it best. */
const turnIn = (passage: Passage): number => (passage.outcome === 'passes' ? passage.turnedDeg : 0);

/** A part counts with the one size that decides; which that is, is not asked. */
const sizesOf = (id: string, facts: Facts): readonly GradeShare[] => [facts.gradeOf(id)];

/** Room that leaves no doubt, with the tape: half of it on either side. */
function wantedFor(id: string, compartment: string, way: readonly string[], facts: Facts): number {
  const besides = [compartment, ...way].map((one) => facts.gradeOf(one).gradeM);
  return CLEAN_MARGIN * combine(...sizesOf(id, facts).map(({ gradeM }) => gradeM), Math.max(...besides));
}

type Found = Extract<GettingIn, { outcome: 'goesIn' }>;

function carried(id: string, compartment: string, found: Found, turnedDeg: number, facts: Facts): Tried {
  const { gate, beside } = found;
  const opening = facts.openings()[gate.owner];
  const spareM = Math.min(gate.spareM, beside?.spareM ?? Number.POSITIVE_INFINITY);
  const atGate = judgedSpare(gate.spareM, [...sizesOf(id, facts), ...clearSizesOf(id, gate.owner, gate.spareM, facts)]);
  const judged = beside
    ? lessSure(
        atGate,
        judgedSpare(beside.spareM, [
          ...sizesOf(id, facts),
          ...gradesOfBlocker(beside, opening?.normal ?? [0, 0, 1], facts),
        ]),
      )
    : atGate;
  const tightest = beside && beside.spareM < gate.spareM ? beside : gate;
  return passing(id, compartment, gate.owner, spareM, judged, facts, {
    blocker: tightest.owner,
    tightest: tightest.label,
    how: found.how,
    moves: found.moves.length - 1,
    tiltDeg: found.tiltDeg,
    turnedDeg,
  });
}

function throughOpenings(
  id: string,
  compartment: string,
  { opening, passage }: Through,
  takenBy: string | null,
  facts: Facts,
): Tried {
  const judged = judgedSpare(passage.spareM, [
    ...sizesOf(id, facts),
    ...clearSizesOf(id, opening, passage.spareM, facts),
  ]);
  return passing(id, compartment, opening, passage.spareM, judged, facts, {
    blocker: opening,
    tightest: facts.openings()[opening]?.name ?? opening,
    how: 'openingsAlone',
    takenBy,
    turnedDeg: turnIn(passage),
  });
}

const judgedSpare = (spareM: number, grade: readonly GradeShare[]): Judged =>
  judge({ value: spareM, limit: 0, bound: 'atLeast', unit: 'm', grade });

function passing(
  id: string,
  compartment: string,
  opening: string,
  spareM: number,
  judged: Judged,
  facts: Facts,
  data: VerdictData,
): Tried {
  const doubted = withPlaceDoubt(id, compartment, judged, facts);
  const { met: _met, ...compared } = { ...doubted, measured: { value: spareM, unit: 'm' as const } };
  return {
    rank: 0,
    spareM,
    judged: doubted,
    verdict: {
      outcome: 'pass',
      ...compared,
      related: [opening],
      at: facts.openings()[opening]?.at ?? null,
      data: { opening: facts.openings()[opening]?.name ?? opening, spareM, ...data, ...carriedBy(id, facts) },
    },
  };
}

/** Who carries what how: its mass, and where people stand how that lift counts. */
function carriedBy(id: string, facts: Facts): VerdictData {
  const massKg = facts.thing(id)?.massKg ?? 0;
  const at = facts.pose(id)?.at;
  const places = standingPlacesFor(id, facts);
  if (!at || places.length === 0) return { massKg, standing: null, posture: null, liftIndex: null };
  const { standing, posture, index } = leastLifted(places, at, massKg);
  return { massKg, standing, posture, liftIndex: index };
}

/** A part that pokes through a side of its compartment may stand on the other side of it. */
function withPlaceDoubt(id: string, compartment: string, judged: Judged, facts: Facts): Judged {
  const at = facts.pose(id)?.at;
  const body = facts.solidsOf(id)[0];
  if (!at || !body) return judged;
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
  if (depths.length === 0) return judged;
  const insideM = Math.min(...depths);
  const grade = [facts.gradeOf(compartment)];
  const mostM = CLEAN_MARGIN * combine(...grade.map(({ gradeM }) => gradeM));
  return insideM >= mostM ? judged : lessSure(judged, judgedSpare(insideM, grade));
}

/** A proof that it does not go in; it holds as long as the sizes are no more than so much off. */
function proved(id: string, { opening, passage }: Through, reason: string, spareM: number, facts: Facts): Tried {
  const grade = [...sizesOf(id, facts), ...clearSizesOf(id, opening, spareM, facts)];
  const shape = facts.thing(id)?.shape as Shape;
  const record = facts.openings()[opening] as Opening;
  const worst = judgedSpare(spareM, grade);
  const mostM = CLEAN_MARGIN * combine(...grade.map(({ gradeM }) => gradeM));
  const slipM =
    passage.outcome === 'cannot'
      ? slipUntil((byM) => passOpening(shape, larger(record, byM)).outcome === 'cannot', mostM)
      : mostM;
  const judged = slipM < mostM ? lessSure(worst, judgedSpare(-slipM, grade)) : worst;
  const { met: _met, ...compared } = { ...judged, measured: { value: spareM, unit: 'm' as const } };
  return {
    rank: 2,
    spareM,
    judged,
    verdict: {
      outcome: 'fail',
      severity: 'fault',
      reason,
      ...compared,
      related: [opening],
      at: record.at,
      data: { blocker: opening, opening: record.name, spareM, ...carriedBy(id, facts) },
    },
  };
}

const larger = (opening: Opening, byM: number): Opening => ({
  ...opening,
  widthM: opening.widthM + byM,
  heightM: opening.heightM + byM,
});

function notFound(
  id: string,
  worst: Through,
  way: readonly string[],
  wantedM: number,
  found: GettingIn | null,
  facts: Facts,
): Tried {
  const stopped = found?.outcome === 'notFound' ? found.opening : worst.opening;
  const record = facts.openings()[stopped];
  const tried = found?.outcome === 'notFound' ? found : null;
  const slips = facts.isDeeper() && tried !== null && wantedM > 0;
  const ifShaved = slips
    ? facts.carriedIn(id, way, { looks: DEEP_LOOKS, longerM: -wantedM })?.outcome === 'goesIn'
    : null;
  return {
    rank: 1,
    spareM: worst.passage.spareM,
    judged: null,
    verdict: {
      outcome: 'cannotTell',
      reason: 'notFound',
      enterNext: `Try it with a cardboard mock-up at ${record?.name ?? stopped}`,
      related: [stopped],
      at: record?.at ?? null,
      data: {
        blocker: stopped,
        opening: record?.name ?? stopped,
        spareM: worst.passage.spareM,
        straight: tried?.tried.straight ?? 0,
        poses: tried?.tried.poses ?? 0,
        takenBy: found?.outcome === 'cannot' ? (found.by?.owner ?? null) : null,
        ifEmpty: tried?.ifEmpty ?? null,
        ifSmaller: tried?.ifSmaller ?? null,
        ifShaved,
        shavedM: ifShaved === null ? null : wantedM,
        ...carriedBy(id, facts),
      },
    },
  };
}

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
