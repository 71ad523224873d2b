import type { Vec2 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import type { CompartmentAnswer, PlaceReport } from '@core/engine/placement/place-report';
import type { ViewName } from '@core/output/views/drawing';
import { placeWords } from '../../panels/placing/say-place';
import type { DisplayUnits } from '../../store/types';
import { type Annotations, inside, placesAround } from '../annotate';
import { abbreviated, type Candidate, placeLabels, RANK } from '../labels';
import { FONT, widthOf } from '../paint/pen';
import { isCutBy, type Scene, type Tinting, thingsIn, type View, viewsOf } from '../scene';
import { type CompartmentDrawn, compartmentsDrawn } from '../shape';
import { type Rect, toPaper, toScreen, within } from '../sheet';
import { linesOfThing, type Placed } from '../things';
import { paintGhosts } from './ghosts';
import { ghostsOf } from './places';
import { paintTints } from './tints';

interface Asked {
  readonly parts: readonly string[];
  readonly report: PlaceReport | null;
  readonly isOld: boolean;
  readonly units: DisplayUnits;
}

/** How the board draws an answer: tints under the lines, ranks and reasons in place of names, the places themselves over all. */
export function tintingOf({ parts, report, isOld, units }: Asked): Tinting {
  const answers = new Map((report?.compartments ?? []).map((one) => [one.compartment, one]));
  // Until all are judged the order still changes.
  const judged = report?.stage === 'settled' ? report.compartments.filter(ranked) : [];
  const ranks = new Map(judged.map(({ compartment }, index) => [compartment, index + 1]));
  return {
    parts: new Set(parts),
    annotate: (scene) => wordsOn(scene, answers, ranks, units),
    paintGround: (ctx, scene, view, drawn) =>
      paintTints(ctx, scene, view, drawn, answers, isOld || scene.lifted.things.size > 0),
    paintPlaces: (ctx, scene, notes, chosen, hovered) =>
      paintGhosts(ctx, scene, notes, { parts, answers, chosen, hovered, units, isOld }),
  };
}

const RING_PX = 20;
const LINE_PX = 12;

const ranked = (answer: CompartmentAnswer | undefined): boolean =>
  answer !== undefined && answer.verdict !== 'no' && answer.verdict !== 'notYet';

interface Block {
  readonly compartment: string;
  readonly name: string;
  readonly reason: string;
}

function wordsOn(
  scene: Scene,
  answers: ReadonlyMap<string, CompartmentAnswer>,
  ranks: ReadonlyMap<string, number>,
  units: DisplayUnits,
): Annotations {
  const words: Annotations['words'][number][] = [];
  const marks: NonNullable<Annotations['ranks']>[number][] = [];
  for (const view of viewsOf(scene)) {
    const drawn = view.cut
      ? scene.section.compartments
      : compartmentsDrawn(scene.boat, scene.layout, scene.hull, view.frame);
    const taken = bodiesOf(scene, view, answers);
    const over: Rect[] = [];
    for (const { compartment, rank, at } of ranksOn(scene.boat, view, drawn, answers, ranks, taken)) {
      over.push(roundWord(at, { width: RING_PX, height: RING_PX }));
      if (within(view.field, at)) marks.push({ view: view.name, compartment, rank, at: toPaper(view.t, at) });
    }
    if (!view.cut) {
      const [x] = toScreen(view.t, [scene.sectionX, 0]);
      over.push({ x: x - 1, y: view.field.y, w: 2, h: view.field.h });
    }
    words.push(...blocksOn(scene.boat, view, drawn, answers, taken, over, units));
  }
  return { words, findings: [], balloons: [], zones: new Map(), ranks: marks };
}

/** A ring for each compartment that has a rank: where it is free, else beside the place found, however crowded the locker is. */
function ranksOn(
  boat: Boat,
  view: View,
  drawn: readonly CompartmentDrawn[],
  answers: ReadonlyMap<string, CompartmentAnswer>,
  ranks: ReadonlyMap<string, number>,
  taken: readonly Rect[],
): readonly { readonly compartment: string; readonly rank: number; readonly at: Vec2 }[] {
  const wanted = drawn.flatMap((one) => {
    const rank = ranks.get(one.id);
    return rank === undefined || !one.label ? [] : [{ one, rank }];
  });
  const candidate = ({ one, rank }: (typeof wanted)[number], places: readonly Vec2[]): Candidate => ({
    id: one.id,
    rank,
    width: RING_PX,
    height: RING_PX,
    places,
  });
  const free = placeLabels(
    wanted.map((own) => candidate(own, inside(own.one.rings, view, RING_PX, around(view, own.one, RING_PX)))),
    taken,
  );
  const beside = placeLabels(
    wanted
      .filter(({ one }) => !free.has(one.id))
      .map((own) =>
        candidate(own, [...cornersOf(boat, view, answers.get(own.one.id)), ...around(view, own.one, RING_PX)]),
      ),
    [...free.values()].map((at) => roundWord(at, { width: RING_PX, height: RING_PX })),
  );
  return wanted.flatMap(({ one, rank }) => {
    const at = free.get(one.id) ?? beside.get(one.id);
    return at ? [{ compartment: one.id, rank, at }] : [];
  });
}

/** Corners and sides of the place found, on screen. */
function cornersOf(boat: Boat, view: View, answer: CompartmentAnswer | undefined): Vec2[] {
  const [ghost] = answer ? ghostsOf(boat, answer) : [];
  if (!ghost) return [];
  const { bounds } = linesOfThing(ghost, view.frame);
  const [[x0, y1], [x1, y0]] = [toScreen(view.t, bounds.low), toScreen(view.t, bounds.high)];
  return [x0, x1].flatMap((x): Vec2[] => [
    [x, y0],
    [x, y1],
    [x, (y0 + y1) / 2],
  ]);
}

/** Name and, below it, a word of the reason; one of the two where there is no room for both. */
function blocksOn(
  boat: Boat,
  view: View,
  drawn: readonly CompartmentDrawn[],
  answers: ReadonlyMap<string, CompartmentAnswer>,
  bodies: readonly Rect[],
  marks: readonly Rect[],
  units: DisplayUnits,
): Annotations['words'][number][] {
  const blocks = new Map<string, Block>();
  const candidates: Candidate[] = [];
  for (const one of drawn) {
    const answer = answers.get(one.id);
    if (!one.label || !(one.primary || ranked(answer))) continue;
    const room = one.label.widthM * view.t.scale;
    const high = one.label.heightM * view.t.scale;
    const fits = (text: string, font: string): boolean => widthOf(text, font) + 4 <= Math.max(room, 40);
    const reason = answer ? placeWords(answer, boat, units).short : '';
    const short = abbreviated(one.name);
    const name = fits(one.name, FONT.place) ? one.name : fits(short, FONT.place) ? short : '';
    const kept = fits(reason, FONT.drawing) ? reason : '';
    const tall = high >= 2 * LINE_PX;
    const block: Block = tall
      ? { compartment: one.id, name, reason: kept }
      : { compartment: one.id, name: kept === '' ? name : '', reason: kept };
    if (block.name === '' && block.reason === '') continue;
    const width = Math.max(widthOf(block.name, FONT.place), widthOf(block.reason, FONT.strong)) + 4;
    const height = (block.name === '' || block.reason === '' ? 1 : 2) * LINE_PX + 2;
    blocks.set(one.id, block);
    candidates.push({
      id: one.id,
      rank: RANK.placeName + (one.primary ? 0 : 0.5),
      width,
      height,
      places: inside(one.rings, view, width, around(view, one, height)),
    });
  }
  const free = placeLabels(candidates, [...bodies, ...marks]);
  // A reason may lie over what stands in the locker, where there is no other place for it.
  const rest = candidates.filter(({ id }) => !free.has(id) && answers.get(id)?.verdict === 'no');
  const over = placeLabels(
    rest.flatMap((one) => reasonAlone(one, blocks)),
    [
      ...marks,
      ...[...free].map(([id, at]) =>
        roundWord(
          at,
          candidates.find((one) => one.id === id),
        ),
      ),
    ],
  );
  return [...free, ...over].flatMap(([id, at]) => {
    const block = blocks.get(id);
    return block && within(view.field, at) ? wordsOf(block, view, at) : [];
  });
}

/** The candidate for the reason without the name; the block forgets the name. */
function reasonAlone(one: Candidate, blocks: Map<string, Block>): readonly Candidate[] {
  const block = blocks.get(one.id);
  if (!block || block.reason === '') return [];
  blocks.set(one.id, { ...block, name: '' });
  return [{ ...one, width: widthOf(block.reason, FONT.drawing) + 2, height: LINE_PX }];
}

const roundWord = (
  [x, y]: Vec2,
  { width, height }: Pick<Candidate, 'width' | 'height'> = { width: 0, height: 0 },
): Rect => ({
  x: x - width / 2,
  y: y - height / 2,
  w: width,
  h: height,
});

function wordsOf({ compartment, name, reason }: Block, view: View, [x, y]: Vec2): Annotations['words'][number][] {
  const word = (text: string, dy: number, kind: 'place' | 'tag'): Annotations['words'][number][] =>
    text === ''
      ? []
      : [
          {
            view: view.name as ViewName,
            subject: compartment,
            text,
            at: toPaper(view.t, [x, y + dy]),
            kind,
            strong: false,
          },
        ];
  const both = name !== '' && reason !== '';
  return [...word(name, both ? -LINE_PX / 2 : 0, 'place'), ...word(reason, both ? LINE_PX / 2 : 0, 'tag')];
}

function around(view: View, { label }: CompartmentDrawn, height: number): Vec2[] {
  if (!label) return [];
  const wide = label.widthM * view.t.scale;
  const high = label.heightM * view.t.scale;
  return placesAround(toScreen(view.t, label.at), wide / 2 - 10, high / 2 - height / 2);
}

/** What no word should lie on: the places found, and what stands there already. */
function bodiesOf(scene: Scene, view: View, answers: ReadonlyMap<string, CompartmentAnswer>): Rect[] {
  const rect = (placed: Placed): Rect => {
    const { bounds } = linesOfThing(placed, view.frame);
    const [a, b] = [toScreen(view.t, bounds.low), toScreen(view.t, bounds.high)];
    return { x: a[0] - 2, y: b[1] - 2, w: b[0] - a[0] + 4, h: a[1] - b[1] + 4 };
  };
  const there = thingsIn(scene.placed, view.cut, view.frame, null);
  return [...there, ...[...answers.values()].flatMap((answer) => ghostsOf(scene.boat, answer))]
    .filter((placed) => view.cut === null || isCutBy(placed, view.cut))
    .map(rect);
}
