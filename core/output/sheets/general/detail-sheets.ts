import type { Vec3 } from '../../../base/vec';
import { PLAN, PROFILE, type ViewFrame } from '../../views/drawing';
import type { PrintContext } from '../context';
import { type Mark, outline, rectangle, TEXT, text, WIDTH } from '../marks';
import { checkLine, frameBox, type Paper, scaleBar, TITLE_BLOCK } from '../paper';
import { balloonMarks } from './balloons';
import { clipped, piecesWithin } from './clipping';
import { SCALES, type ViewPlace } from './places';
import type { DrawnThing, GeneralScene } from './scene';
import { viewMarks } from './views';
import { wordsOn } from './words';

export interface DetailSheet {
  readonly paper: Paper;
  readonly scale: number;
  readonly caption: string;
  readonly marks: readonly Mark[];
}

/** Where most parts stand, drawn larger: worth a sheet from this many times the scale of the first. */
const WORTH = 1.5;
/** Share of the parts that the crowded stretch holds, and room about them, metres. */
const CROWD = 0.75;
const ROOM_M = 0.15;
const LEAST_PARTS = 4;

const INSIDE_MM = 7;
const CAPTION_MM = 9;
const BALLOON_ROW_MM = 9;
const FOOT_MM = 20;
const GAP_MM = 12;

/** The stretch of the boat where most parts stand in plan and profile at a larger scale, on one sheet or on two. */
export function detailSheets(scene: GeneralScene, firstScale: number, context: PrintContext): readonly DetailSheet[] {
  const least = crowded(scene);
  if (!least) return [];
  const paper: Paper = { size: context.paper, landscape: true };
  const inner = frameBox(paper);
  const [leastM, beamM, heightM] = [0, 1, 2].map((k) => (least.high[k] ?? 0) - (least.low[k] ?? 0)) as [
    number,
    number,
    number,
  ];
  const width = inner.widthMm - 2 * INSIDE_MM;
  const height = inner.heightMm - TITLE_BLOCK.heightMm - FOOT_MM - CAPTION_MM - 2 * BALLOON_ROW_MM;
  const fits = (scale: number, columns: number): boolean => {
    const k = 1000 / scale;
    return columns * leastM * k + (columns - 1) * GAP_MM <= width && Math.max(beamM, heightM) * k <= height;
  };
  const together = SCALES.find((scale) => fits(scale, 2));
  const apart = SCALES.find((scale) => fits(scale, 1));
  if (apart === undefined || firstScale < WORTH * apart) return [];
  const isOne = together !== undefined && together < WORTH * apart;
  const scale = isOne ? together : apart;
  const k = 1000 / scale;
  const columnM = (isOne ? (width - GAP_MM) / 2 : width) / k;
  const window = widened(scene, least, columnM, height / k);
  const lengthM = window.high[0] - window.low[0];
  const left = inner.x + INSIDE_MM;
  const top = inner.y + CAPTION_MM + BALLOON_ROW_MM;
  const place = (frame: ViewFrame, x: number, y: number): ViewPlace => {
    const [v0, v1] = frame === PLAN ? [window.low[1], window.high[1]] : [window.low[2], window.high[2]];
    return {
      name: frame.name,
      frame,
      at: ([u, v]) => [x + (u - window.low[0]) * k, y + (v1 - v) * k],
      box: { x, y, widthMm: lengthM * k, heightMm: (v1 - v0) * k },
    };
  };
  const plan = place(PLAN, left, top);
  const profile = place(PROFILE, isOne ? left + lengthM * k + GAP_MM : left, top);
  const parts = scene.things.filter((thing) => isWithin(thing, window));
  const planMarks = [
    ...drawn(scene, plan, 'Detail, plan', scale, context),
    ...balloonMarks({ things: parts, low: window.low, high: window.high }, plan, {
      rows: [top - BALLOON_ROW_MM / 2 - 1, top + plan.box.heightMm + BALLOON_ROW_MM / 2 + 1],
      captionMm: 0,
    }),
  ];
  const profileMarks = drawn(scene, profile, 'Detail, profile', scale, context);
  const foot = [
    ...scaleBar([left, inner.y + inner.heightMm - TITLE_BLOCK.heightMm - 8], scale),
    ...checkLine([inner.x + inner.widthMm - INSIDE_MM - 100, inner.y + inner.heightMm - TITLE_BLOCK.heightMm - 7]),
  ];
  return isOne
    ? [{ paper, scale, caption: 'Detail', marks: [...planMarks, ...profileMarks, ...foot] }]
    : [
        { paper, scale, caption: 'Detail, plan', marks: [...planMarks, ...foot] },
        { paper, scale, caption: 'Detail, profile', marks: [...profileMarks, ...foot] },
      ];
}

/** One view kept within its window, with letters and names, framed. */
function drawn(
  scene: GeneralScene,
  place: ViewPlace,
  caption: string,
  scale: number,
  { lettering }: PrintContext,
): Mark[] {
  const { box } = place;
  const view = viewMarks(scene, place);
  const inside = {
    ...view,
    runs: view.runs.map(({ run, pieces }) => ({ run, pieces: pieces.flatMap((piece) => piecesWithin(piece, box)) })),
  };
  const isInside = (mark: Mark): boolean =>
    mark.kind !== 'text' ||
    reaches(mark, lettering).every(
      (x) =>
        x > box.x + 1 && x < box.x + box.widthMm - 1 && mark.at[1] > box.y + 4 && mark.at[1] < box.y + box.heightMm - 1,
    );
  return [
    ...clipped(view.marks, box),
    ...wordsOn(inside, place, scale, lettering).filter(isInside),
    outline(rectangle(box.x, box.y, box.widthMm, box.heightMm), { widthMm: WIDTH.joinery }),
    text(caption, [box.x, box.y - BALLOON_ROW_MM - 3], { sizeMm: TEXT.heading, face: 'strong' }),
  ];
}

function reaches(mark: Extract<Mark, { kind: 'text' }>, lettering: PrintContext['lettering']): readonly number[] {
  const width = lettering.width(mark.words, mark.sizeMm, mark.face);
  const start = mark.at[0] - (mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? width / 2 : width);
  return [start, start + width];
}

interface Window {
  readonly low: Vec3;
  readonly high: Vec3;
}

const isWithin = ({ pose }: DrawnThing, { low, high }: Window): boolean =>
  [0, 1, 2].every((k) => (pose.at[k] ?? 0) >= (low[k] ?? 0) && (pose.at[k] ?? 0) <= (high[k] ?? 0));

/** The shortest stretch along the boat that holds most parts, as wide and high as these and the runs between them take. */
function crowded(scene: GeneralScene): Window | null {
  const { things, low, high } = scene;
  const parts = things.filter(({ isPart }) => isPart).sort((a, b) => a.low[0] - b.low[0] || (a.id < b.id ? -1 : 1));
  if (parts.length < LEAST_PARTS) return null;
  const count = Math.ceil(parts.length * CROWD);
  let best: { from: number; to: number } | null = null;
  for (let i = 0; i + count <= parts.length; i += 1) {
    const from = parts[i]?.low[0] ?? 0;
    const ends = parts
      .slice(i)
      .map((part) => part.high[0])
      .sort((a, b) => a - b);
    const to = ends[count - 1] ?? 0;
    if (!best || to - from < best.to - best.from) best = { from, to };
  }
  return best && windowOf(scene, Math.max(low[0], best.from - ROOM_M), Math.min(high[0], best.to + ROOM_M));
}

/** As much more to both sides as the paper takes, unless what comes in there makes it too high. */
function widened(scene: GeneralScene, least: Window, lengthM: number, heightM: number): Window {
  const { low, high } = scene;
  const from = (least.low[0] + least.high[0] - lengthM) / 2;
  const x0 = Math.max(low[0], Math.min(from, high[0] - lengthM));
  const wide = windowOf(scene, x0, Math.min(high[0], x0 + lengthM));
  const tallest = Math.max(wide.high[1] - wide.low[1], wide.high[2] - wide.low[2]);
  return tallest <= heightM ? wide : least;
}

function windowOf({ things, runs, low, high }: GeneralScene, x0: number, x1: number): Window {
  const parts = things.filter(({ isPart }) => isPart);
  const points: Vec3[] = [
    ...parts.filter((part) => part.low[0] >= x0 && part.high[0] <= x1).flatMap((part) => [part.low, part.high]),
    ...runs
      .filter(({ line, path }) => !line.existing && path.routed)
      .flatMap(({ path }) => path.path.filter(([x]) => x >= x0 && x <= x1)),
  ];
  const bound = (axis: 1 | 2, pick: (...values: number[]) => number): number =>
    points.reduce((so, p) => pick(so, p[axis]), points[0]?.[axis] ?? 0);
  return {
    low: [x0, Math.max(low[1], bound(1, Math.min) - ROOM_M), Math.max(low[2], bound(2, Math.min) - ROOM_M)],
    high: [x1, Math.min(high[1], bound(1, Math.max) + ROOM_M), Math.min(high[2], bound(2, Math.max) + ROOM_M)],
  };
}
