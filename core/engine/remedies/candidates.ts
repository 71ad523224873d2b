import { add, along, distance, dot, midpoint, scale, subtract, type Vec3 } from '../../base/vec';
import { LINE_KINDS } from '../../boat/catalogue/line-kinds';
import { type BoatRecipe, freeId, placed } from '../../boat/edits';
import { panelChanged } from '../../boat/interior/panel-data';
import type { Boat, Line, LineKind } from '../../boat/schema/boat';
import type { RemedyChange } from '../../rules/remedy';
import { insetOutline, type PortalFrame, pointOnPortal, structureOf } from '../../runs/routing/structure';
import type { RoutingLine, RunOutcome } from '../../runs/routing/types';
import type { Layout, Panel } from '../../shape/layout/types';
import { fitting } from '../routing-line';

/** A change that may help; whether it does is found by routing. */
export interface Candidate {
  readonly id: string;
  readonly change: RemedyChange;
  readonly what: Readonly<Record<string, string | number>>;
  readonly recipe: BoatRecipe;
  /** Panel that is drilled, cut or widened. */
  readonly panel?: Panel;
  /** Ids of the lines that stand for this one. */
  readonly lines: readonly string[];
}

/** What candidates are made from. */
export interface Trouble {
  readonly boat: Boat;
  readonly arrangementId: string;
  readonly lineId: string;
  readonly line: Line;
  readonly kind: LineKind;
  readonly asked: RoutingLine;
  readonly outcome: RunOutcome;
  readonly layout: Layout;
}

/** Panels that are looked at, and places in each. */
const MOST_PANELS = 4;
const PLACES = 2;
const MILLIMETRE = 0.001;

const roundedUp = (metres: number): number => Math.ceil(metres / MILLIMETRE - 1e-6) * MILLIMETRE;
const point = (p: Vec3): [number, number, number] => [p[0], p[1], p[2]];

/** Holes in panels between the two ends: the one that is named by the failure first. */
export function holeCandidates(trouble: Trouble): readonly Candidate[] {
  const { asked, arrangementId, lineId } = trouble;
  const diameterM = roundedUp(2 * Math.max(asked.holeRadiusM, asked.radiusM));
  return panelsBetween(trouble).flatMap((panel): Candidate[] => {
    // A panel that may be drilled was drilled by the search wherever that helped.
    const isNew = panel.rule === 'noDrill';
    const drilled = isNew
      ? placesIn(panel, asked, trouble.layout, diameterM / 2).map(
          (at, k): Candidate => ({
            id: `newHole ${panel.id} ${k + 1}`,
            change: 'newHole',
            what: { panel: panel.id, diameterM },
            recipe: (boat) => {
              const holes = boat.arrangements[arrangementId]?.newHoles;
              if (!holes) return;
              holes[freeId(holes, `${lineId}-hole`)] = {
                between: [...panel.between],
                at: point(at),
                diameterM,
                for: [lineId],
              };
            },
            panel,
            lines: [lineId],
          }),
        )
      : [];
    return [...drilled, ...widened(panel, diameterM, lineId)];
  });
}

/** The widest hole of a panel, made wide enough for what it carries and the line beside it. */
function widened(panel: Panel, diameterM: number, lineId: string): readonly Candidate[] {
  const hole = panel.holes
    .filter(({ planned }) => !planned)
    .sort((a, b) => b.diameterM - a.diameterM || (a.id < b.id ? -1 : 1))[0];
  if (!hole || panel.dataId === undefined) return [];
  const toM = roundedUp(diameterM + hole.carries.reduce((sum, one) => sum + one.diameterM, 0));
  if (toM <= hole.diameterM) return [];
  return [
    {
      id: `widerHole ${panel.id} ${hole.id}`,
      change: 'widerHole',
      what: { panel: panel.id, fromM: hole.diameterM, toM },
      recipe: panelChanged({ between: panel.between, near: hole.at, dataId: panel.dataId }, (record) => {
        const own = record.holes[hole.id];
        if (own) own.diameterM = toM;
      }),
      panel,
      lines: [lineId],
    },
  ];
}

/** The panel that the failure names, those between the two ends, those that the straight line between them meets. */
export function panelsBetween({ outcome, asked, layout }: Trouble): readonly Panel[] {
  const named = outcome.status === 'blocked' && outcome.reason.blocker ? layout.panels[outcome.reason.blocker] : null;
  const [a, b] = [asked.from, asked.to].map((lead) => layout.compartmentAt(along(lead.at, lead.direction, 0.02)));
  const joins = Object.values(layout.panels).filter(
    ({ between }) => a != null && b != null && a !== b && between.includes(a) && between.includes(b),
  );
  const met = structureOf(layout).frames.flatMap(({ panel, origin, n, outline, u, v }) => {
    if (!panel || panel.rule === 'open') return [];
    const [p, q] = [dot(subtract(asked.from.at, origin), n), dot(subtract(asked.to.at, origin), n)];
    if (p * q >= 0) return [];
    const at = add(asked.from.at, scale(subtract(asked.to.at, asked.from.at), p / (p - q)));
    const off = subtract(at, origin);
    return insideOutline(outline, dot(off, u), dot(off, v)) ? [panel] : [];
  });
  const all = [...(named ? [named] : []), ...joins, ...met].filter(({ rule }) => rule !== 'open');
  return [...new Set(all)].slice(0, MOST_PANELS);
}

function insideOutline(outline: PortalFrame['outline'], x: number, y: number): boolean {
  return outline.every(([ax, ay], k) => {
    const [bx, by] = outline[(k + 1) % outline.length] as readonly [number, number];
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= -1e-9;
  });
}

/** Places for a hole in a panel: nearest to the straight line between the ends, and its middle. */
export function placesIn(panel: Panel, asked: RoutingLine, layout: Layout, holeRadiusM: number): readonly Vec3[] {
  const found: Vec3[] = [];
  const frames = structureOf(layout).frames.filter((frame) => frame.panel?.id === panel.id);
  const inner = frames.flatMap((frame) => {
    const inset = insetOutline(frame.outline, holeRadiusM + panel.edgeM + MILLIMETRE);
    return inset.length > 0 ? [{ frame, inset }] : [];
  });
  const wanted = midpoint(asked.from.at, asked.to.at);
  const middles = inner.map(({ frame, inset }) => {
    const [x, y] = inset.reduce(([sx, sy], [px, py]) => [sx + px / inset.length, sy + py / inset.length], [0, 0]);
    const off = subtract(wanted, frame.origin);
    const [wx, wy] = [dot(off, frame.u), dot(off, frame.v)];
    // Towards the straight way as far as the panel goes.
    let [low, high] = [0, 1];
    for (let step = 0; step < 20; step += 1) {
      const share = (low + high) / 2;
      if (insideOutline(inset, x + (wx - x) * share, y + (wy - y) * share)) low = share;
      else high = share;
    }
    return [pointOnPortal(frame, x + (wx - x) * low, y + (wy - y) * low), pointOnPortal(frame, x, y)] as const;
  });
  for (const k of [0, 1] as const)
    for (const pair of [...middles].sort((p, q) => distance(p[k], wanted) - distance(q[k], wanted)))
      if (found.every((other) => distance(other, pair[k]) > 4 * holeRadiusM)) found.push(pair[k]);
  return found.slice(0, PLACES);
}

/** An elbow at one end, of 45 or 90 degrees; a made-up hose is ordered with it. */
export function elbowCandidates({ line, kind, lineId }: Trouble): readonly Candidate[] {
  if (kind.what === 'cable') return [];
  return (['from', 'to'] as const).flatMap((end) =>
    ([45, 90] as const).flatMap((angleDeg): Candidate[] => {
      const own = fitting(line, kind, end);
      if (own.angleDeg === angleDeg) return [];
      return [
        {
          id: `elbow ${end} ${angleDeg}`,
          change: 'elbow',
          what: { end, angleDeg, thing: line[end].thing },
          recipe: (boat) => {
            const draft = boat.lines[lineId];
            if (draft) draft.ends[end] = { ...own, angleDeg };
          },
          lines: [lineId],
        },
      ];
    }),
  );
}

/** Kinds of the same bore, or copper, that do what this one does and bend tighter or are thinner. */
export function kindCandidates({ boat, line, kind, lineId }: Trouble): readonly Candidate[] {
  const known: Readonly<Record<string, LineKind>> = { ...LINE_KINDS, ...boat.lineKinds };
  return Object.entries(known)
    .filter(([id, other]) => id !== line.kind && serves(other, kind, line))
    .sort(([a, p], [b, q]) => q.bendRadiusM - p.bendRadiusM || (a < b ? -1 : 1))
    .slice(0, 3)
    .map(([id]) => ({
      id: `kind ${id}`,
      change: 'kind' as const,
      what: { from: line.kind, to: id },
      recipe: (draft) => {
        const own = draft.lines[lineId];
        if (own) own.kind = id;
      },
      lines: [lineId],
    }));
}

/** Bores within this are the same. */
const SAME_BORE_M = 0.0006;

function serves(other: LineKind, kind: LineKind, line: Line): boolean {
  if (other.what !== kind.what || (other.conductors ?? 0) !== (kind.conductors ?? 0)) return false;
  if ((other.boreM === undefined) !== (kind.boreM === undefined)) return false;
  if (Math.abs((other.boreM ?? 0) - (kind.boreM ?? 0)) > SAME_BORE_M) return false;
  if ((other.areaMm2 ?? 0) < (kind.areaMm2 ?? 0)) return false;
  if ((other.pressureBar ?? 0) < (kind.pressureBar ?? 0)) return false;
  if ((kind.suction || line.suction) && !other.suction) return false;
  if (kind.potable && !other.potable) return false;
  if ((other.temperatureC ?? 0) < (kind.temperatureC ?? 0)) return false;
  return other.bendRadiusM < kind.bendRadiusM - 1e-9 || other.outsideM < kind.outsideM - 1e-9;
}

/** The next sold length that is long enough, and the ones after it. */
export function lengthCandidates(
  { line, kind, lineId, outcome }: Trouble,
  neededM: number | null,
): readonly Candidate[] {
  const { supplied } = line;
  if (!supplied) return [];
  const leastM = Math.max(neededM ?? outcome.lowerBoundM, supplied.lengthM) + supplied.spareM;
  const sold = kind.soldLengthsM?.filter((lengthM) => lengthM >= leastM).sort((a, b) => a - b) ?? [];
  const stepped = [0, 1, 2, 4].map((more) => (Math.ceil(leastM / SOLD_STEP_M - 1e-9) + more) * SOLD_STEP_M);
  return (sold.length > 0 ? sold.slice(0, 3) : stepped).map((toM) => ({
    id: `longerHose ${Math.round(toM * 1000)}`,
    change: 'longerHose' as const,
    what: { fromM: supplied.lengthM, toM },
    recipe: (draft) => {
      const own = draft.lines[lineId]?.supplied;
      if (own) own.lengthM = toM;
    },
    lines: [lineId],
  }));
}
/** Hoses that are made up to order come in steps of this: common practice, no source. */
const SOLD_STEP_M = 0.1;

/** A part at an end of the line, turned where it stands. */
export function turnCandidates(trouble: Trouble): readonly Candidate[] {
  const { boat, arrangementId, lineId, line } = trouble;
  const places = boat.arrangements[arrangementId]?.places ?? {};
  return [...new Set([line.from.thing, line.to.thing])].flatMap((thing) => {
    const place = Object.hasOwn(boat.parts, thing) ? places[thing] : undefined;
    if (!place) return [];
    return ([90, -90, 180] as const).map((byDeg): Candidate => {
      const yawDeg = ((((place.yawDeg + byDeg + 180) % 360) + 360) % 360) - 180;
      return {
        id: `turn ${thing} ${byDeg}`,
        change: 'turn',
        what: { thing, byDeg },
        recipe: placed(arrangementId, thing, { at: place.at, yawDeg }),
        lines: [lineId],
      };
    });
  });
}
