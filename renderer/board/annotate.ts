import { ringContains } from '@core/base/ring';
import type { Vec2 } from '@core/base/vec';
import { project, type ViewName } from '@core/output/views/drawing';
import type { Ring } from '@core/output/views/polygons';
import { findingNumbers, type Mark, markOfFinding, sortedFindings } from '../store/findings';
import { abbreviated, type Candidate, placeLabels, RANK, spotsAlong, spread, uncrossed } from './labels';
import { FONT, widthOf } from './paint/pen';
import { contextOf, runsIn, type Scene, SECTION_DEEP, thingsIn, type View, viewsOf } from './scene';
import { compartmentsDrawn } from './shape';
import { type Rect, toPaper, toScreen, within, zoneAt } from './sheet';
import { linesOfThing } from './things';

/** Words and marks of one settled drawing. Places are on paper, so that they follow pan and zoom until the next pass. */
export interface Annotations {
  readonly words: readonly {
    readonly view: ViewName;
    /** Thing or compartment that it names. */
    readonly subject: string;
    readonly text: string;
    readonly at: Vec2;
    readonly kind: 'place' | 'tag';
    readonly strong: boolean;
  }[];
  readonly findings: readonly FindingMark[];
  readonly balloons: readonly {
    readonly view: ViewName;
    readonly thing: string;
    readonly number: number;
    readonly at: Vec2;
    readonly to: Vec2;
  }[];
  /** Zone of the sheet by the key of a finding. */
  readonly zones: ReadonlyMap<string, string>;
  /** Where it is asked where parts can go: ranks of the compartments, on paper. */
  readonly ranks?: readonly {
    readonly view: ViewName;
    readonly compartment: string;
    readonly rank: number;
    readonly at: Vec2;
  }[];
}
export interface FindingMark {
  readonly view: ViewName;
  readonly key: string;
  readonly number: number;
  readonly mark: Mark;
  readonly at: Vec2;
  /** Drawn at rest; else only when its row in the list is picked or pointed at. */
  readonly atRest: boolean;
}

const NAME_FROM_W = 64;
const NAME_FROM_H = 16;
const TAGS_FROM = 40;
const BALLOONS_FROM = 50;
const MARK_PX = 22;
/** Close calls and the like that are drawn on the whole sheet: a boat that is guessed has dozens, and they would hide it. */
const MILD_MARKS = 12;
/** Times the whole sheet's scale from which one is looking closer: then fixtures get tags and side lockers names. */
const CLOSER = 1.6;

export function annotate(scene: Scene): Annotations {
  if (scene.tinting) return scene.tinting.annotate(scene);
  const views = viewsOf(scene);
  const words: Annotations['words'][number][] = [];
  const findings = placeFindings(scene, views);
  const balloons = placeBalloons(scene, views);
  for (const view of views) {
    const candidates: Candidate[] = [];
    const text = new Map<string, { subject: string; text: string; kind: 'place' | 'tag'; strong: boolean }>();
    const taken = [
      ...findings
        .filter((f) => f.view === view.name && f.atRest)
        .map((f) => {
          const [x, y] = toScreen(view.t, f.at);
          return { x: x - MARK_PX / 2, y: y - MARK_PX / 2, w: MARK_PX, h: MARK_PX };
        }),
      ...balloons
        .filter((b) => b.view === view.name)
        .map((b) => {
          const [x, y] = toScreen(view.t, b.at);
          return { x: x - 10, y: y - 10, w: 20, h: 20 };
        }),
    ];
    taken.push(...spotsAlong(runsIn(scene.boat, scene.paths, view), view.t, view.field));
    collectTags(scene, view, candidates, text);
    const keep = (placed: ReadonlyMap<string, Vec2>) => {
      for (const [id, at] of placed) {
        const word = text.get(id);
        if (word && within(view.field, at)) words.push({ view: view.name, at: toPaper(view.t, at), ...word });
        taken.push({ x: at[0] - 14, y: at[1] - 6, w: 28, h: 12 });
      }
    };
    keep(placeLabels(candidates, taken));
    if (!scene.layers.names) continue;
    const names: Candidate[] = [];
    // The line of the section would strike a name out.
    if (!view.cut) {
      const [x] = toScreen(view.t, [scene.sectionX, 0]);
      taken.push({ x: x - 1, y: view.field.y, w: 2, h: view.field.h });
    }
    collectNames(scene, view, names, text);
    keep(placeLabels(names, [...taken, ...bodies(scene, view)]));
  }
  const zones = new Map<string, string>();
  for (const mark of findings) {
    const view = views.find((v) => v.name === mark.view);
    if (view && !zones.has(mark.key)) zones.set(mark.key, zoneAt(scene.sheet, toScreen(view.t, mark.at)));
  }
  return { words, findings, balloons, zones };
}

function collectNames(
  scene: Scene,
  view: View,
  names: Candidate[],
  text: Map<string, { subject: string; text: string; kind: 'place' | 'tag'; strong: boolean }>,
): void {
  const drawn = view.cut
    ? scene.section.compartments
    : compartmentsDrawn(scene.boat, scene.layout, scene.hull, view.frame);
  const context = contextOf(scene);
  const close = view.t.scale > scene.sheet.fit.scale * CLOSER;
  for (const { id, name, label, primary, rings } of drawn) {
    if (!label || !(primary || close || id === context)) continue;
    const room = label.widthM * view.t.scale;
    const high = label.heightM * view.t.scale;
    if (high < NAME_FROM_H * 0.8 || room < NAME_FROM_W * 0.6) continue;
    const full = widthOf(name, FONT.place) + 4;
    const short = abbreviated(name);
    const shown = full <= room ? name : widthOf(short, FONT.place) + 4 <= room ? short : null;
    if (!shown) continue;
    const key = `place/${id}`;
    const width = widthOf(shown, FONT.place) + 4;
    text.set(key, { subject: id, text: shown, kind: 'place', strong: id === context });
    names.push({
      id: key,
      rank: RANK.placeName + (id === context ? -0.5 : 0),
      width,
      height: 13,
      places: inside(rings, view, width, placesAround(toScreen(view.t, label.at), (room - width) / 2, high / 2 - 7)),
    });
  }
}

/** Those places at which the whole word lies within the compartment; where there is none, at least its middle line. */
export function inside(rings: readonly Ring[], view: View, width: number, places: readonly Vec2[]): readonly Vec2[] {
  const within = (height: number) =>
    places.filter(([x, y]) =>
      [-0.5, 0, 0.5].every((dx) =>
        [-height, height].every((dy) => {
          const corner = toPaper(view.t, [x + dx * width, y + dy]);
          return rings.some((ring) => ringContains(ring, corner));
        }),
      ),
    );
  const whole = within(6);
  return whole.length > 0 ? whole : within(0);
}

/** The middle first, then rows above and below it, then to the sides, as far as there is room. */
export function placesAround([x, y]: Vec2, sideways: number, upwards: number): Vec2[] {
  const out: Vec2[] = [];
  for (const dx of [0, -0.45 * sideways, 0.45 * sideways, -0.95 * sideways, 0.95 * sideways])
    for (let dy = 0; dy <= Math.max(0, upwards); dy += 13)
      out.push([x + dx, y - dy], ...(dy > 0 ? [[x + dx, y + dy] as const] : []));
  return out;
}

/** What a place name should not lie on: parts, and fixtures that do not fill half a compartment. */
function bodies(scene: Scene, view: View): Rect[] {
  return thingsIn(scene.placed, view.cut, view.frame, null).flatMap((placed) => {
    const { bounds } = linesOfThing(placed, view.frame);
    const a = toScreen(view.t, bounds.low);
    const b = toScreen(view.t, bounds.high);
    return [{ x: a[0], y: b[1], w: b[0] - a[0], h: a[1] - b[1] }];
  });
}

function collectTags(
  scene: Scene,
  view: View,
  candidates: Candidate[],
  text: Map<string, { subject: string; text: string; kind: 'place' | 'tag'; strong: boolean }>,
): void {
  if (view.t.scale < TAGS_FROM) return;
  const selected = scene.selection?.kind === 'thing' ? scene.selection.id : null;
  for (const placed of thingsIn(scene.placed, view.cut, view.frame, selected)) {
    const named = placed.part || placed.thing.tag !== undefined;
    if (!named || !placed.thing.tag) continue;
    const { bounds } = linesOfThing(placed, view.frame);
    const a = toScreen(view.t, bounds.low);
    const b = toScreen(view.t, bounds.high);
    const width = widthOf(placed.tag, FONT.drawing) + 3;
    const middleX = (a[0] + b[0]) / 2;
    const middleY = (a[1] + b[1]) / 2;
    // On the sheet at rest, balloons name the parts of the plan; tags come in when one looks closer.
    if (view.name === 'plan' && placed.part && scene.layers.balloons && balloonsShown(scene)) continue;
    if (!placed.part && placed.id !== selected && view.t.scale < scene.sheet.fit.scale * CLOSER) continue;
    const key = `tag/${placed.id}`;
    text.set(key, { subject: placed.id, text: placed.tag, kind: 'tag', strong: placed.id === selected });
    candidates.push({
      id: key,
      rank: RANK.partTag + (placed.id === selected ? -0.5 : placed.part ? 0 : 0.3),
      width,
      height: 12,
      always: placed.id === selected,
      places: [
        [middleX, b[1] - (placed.id === selected ? 13 : 8)],
        [middleX, a[1] + (placed.id === selected ? 13 : 8)],
        [b[0] + width / 2 + 4, middleY],
        [a[0] - width / 2 - 4, middleY],
      ],
    });
  }
}

/** Marks stand beside the place, in the view where they crowd least; one of each finding, so that it has one zone. */
function placeFindings(scene: Scene, views: readonly View[]): FindingMark[] {
  const { report } = scene;
  if (!report) return [];
  const numbers = findingNumbers(report);
  const taken: { view: ViewName; at: Vec2 }[] = [];
  const out: FindingMark[] = [];
  let mildLeft = scene.camera.scale > scene.sheet.fit.scale * CLOSER ? Number.POSITIVE_INFINITY : MILD_MARKS;
  for (const finding of sortedFindings(report.findings).open) {
    const mark = markOfFinding(finding);
    const number = numbers.get(finding.key);
    if (!mark || number === undefined || !finding.at) continue;
    let best: { view: View; at: Vec2; room: number } | null = null;
    for (const view of views) {
      if (view.name === 'section') continue;
      const place = toScreen(view.t, project(view.frame, finding.at));
      if (!within(view.field, place)) continue;
      for (const [dx, dy] of OFFSETS) {
        const at: Vec2 = [place[0] + dx, place[1] + dy];
        const room = Math.min(
          30,
          ...taken.filter((o) => o.view === view.name).map((o) => Math.hypot(o.at[0] - at[0], o.at[1] - at[1])),
        );
        // The first place that is clear wins; profile before plan.
        if (!best || room > best.room + 1e-6) best = { view, at, room };
      }
    }
    if (!best) continue;
    const atRest = mark === 'danger' || mark === 'fault' || (mildLeft > 0 && best.room >= MARK_PX);
    if (atRest) {
      taken.push({ view: best.view.name, at: best.at });
      if (mark !== 'danger' && mark !== 'fault') mildLeft -= 1;
    }
    out.push({ view: best.view.name, key: finding.key, number, mark, at: toPaper(best.view.t, best.at), atRest });
    const section = views.find((view) => view.name === 'section');
    if (section && finding.at[0] >= scene.sectionX - 0.15 && finding.at[0] <= scene.sectionX + SECTION_DEEP) {
      const place = project(section.frame, finding.at);
      const [x, y] = toScreen(section.t, place);
      out.push({ view: 'section', key: finding.key, number, mark, at: toPaper(section.t, [x, y - 15]), atRest });
    }
  }
  return out;
}

const OFFSETS: readonly Vec2[] = [
  [0, -16],
  [16, -10],
  [-16, -10],
  [0, 17],
  [22, 6],
  [-22, 6],
  [0, -38],
  [30, -26],
  [-30, -26],
  [0, 40],
];

const balloonsShown = (scene: Scene): boolean =>
  scene.camera.scale >= BALLOONS_FROM && scene.camera.scale <= scene.sheet.fit.scale * 1.35;

/** Numbers of the parts list in straight rows above and below the plan. */
function placeBalloons(scene: Scene, views: readonly View[]): Annotations['balloons'][number][] {
  if (!scene.layers.balloons || !balloonsShown(scene)) return [];
  const view = views.find((v) => v.name === 'plan');
  if (!view) return [];
  const { extent, placed } = scene;
  const numbers = itemNumbers(scene);
  const above = toScreen(view.t, [0, extent.high[1]])[1] - 8;
  const below = toScreen(view.t, [0, extent.low[1]])[1] + 9;
  const rows: { y: number; parts: { id: string; number: number; to: Vec2 }[] }[] = [
    { y: above, parts: [] },
    { y: below, parts: [] },
  ];
  const parts = placed.filter((p) => p.part && numbers.has(p.id));
  for (const p of parts) {
    const to = toScreen(view.t, project(view.frame, p.pose.at));
    const row = rows[p.pose.at[1] >= 0 ? 0 : 1];
    row?.parts.push({ id: p.id, number: numbers.get(p.id) ?? 0, to });
  }
  // The lower row leaves room for the letter of the section cut.
  const mark = toScreen(view.t, [scene.sectionX, 0])[0];
  const low = view.field.x + 40;
  const high = view.field.x + view.field.w - 24;
  return rows.flatMap(({ y, parts: inRow }) => {
    const sorted = [...inRow].sort((a, b) => a.to[0] - b.to[0] || a.number - b.number);
    const wishes = sorted.map((p) => p.to[0]);
    const places =
      y === below
        ? [
            ...spread(
              wishes.filter((x) => x < mark),
              24,
              low,
              mark - 22,
            ),
            ...spread(
              wishes.filter((x) => x >= mark),
              24,
              mark + 22,
              high,
            ),
          ]
        : spread(wishes, 24, low, high);
    const starts = sorted.map((p, i): Vec2 => [places[i] ?? p.to[0], y]);
    const leads = uncrossed(
      starts,
      sorted.map((p) => p.to),
    );
    return starts.flatMap((at, i) => {
      const p = sorted[leads[i] ?? i];
      if (!p) return [];
      const { id: thing, number } = p;
      return [{ view: 'plan' as const, thing, number, at: toPaper(view.t, at), to: toPaper(view.t, p.to) }];
    });
  });
}

/** Item of each part: its row in the parts-and-lengths list. Equal parts share a row. */
function itemNumbers({ report }: Pick<Scene, 'report'>): Map<string, number> {
  const numbers = new Map<string, number>();
  for (const [index, row] of (report?.takeoff ?? []).entries())
    for (const id of row.from) if (!numbers.has(id)) numbers.set(id, index + 1);
  return numbers;
}
