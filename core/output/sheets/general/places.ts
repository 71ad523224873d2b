import type { Vec2 } from '../../../base/vec';
import { PLAN, PROFILE, SECTION, type ViewFrame, type ViewName } from '../../views/drawing';
import type { Box, Paper } from '../paper';
import { frameBox, TITLE_BLOCK } from '../paper';
import type { PaperSize } from '../paper-size';
import type { GeneralScene } from './scene';

/** A view on the sheet: where a point of it goes, and what it covers. */
export interface ViewPlace {
  readonly name: ViewName;
  readonly frame: ViewFrame;
  /** Millimetres of paper of a point in boat metres on paper axes. */
  at(point: Vec2): Vec2;
  readonly box: Box;
}

/** The first sheet laid out: three views at one scale, aligned as on a lines plan, and the room for lists. */
export interface SheetPlaces {
  readonly paper: Paper;
  readonly inner: Box;
  readonly scale: number;
  readonly views: Readonly<Record<ViewName, ViewPlace>>;
  /** Middles of the two rows of balloons, above and below the plan. */
  readonly balloonRows: readonly [number, number];
  /** Below the plan: the runs; below the section: parts and findings; left of the title block: scale and assumptions. */
  readonly runsBox: Box;
  readonly partsBox: Box;
  readonly notesBox: Box;
  /** The check line has a strip of its own where the title block leaves no room beside it. */
  readonly isNarrow: boolean;
}

/** Scales of drawings of whole boats, as so many millimetres of boat on one of paper. Common practice. */
export const SCALES = [5, 10, 20, 25, 40, 50, 75, 100, 150, 200, 250] as const;

const INSIDE_MM = 7;
const CAPTION_MM = 12;
const BESIDE_MM = 14;
const DIMENSION_MM = 10;
const BALLOON_MM = 8;
const GAP_MM = 4;
const LEAST_LIST_MM = 96;
/** The runs stand below what is drawn: with sample, size, ends and length they need so much. */
const LEAST_DRAWN_MM = 104;
const COLUMN_GAP_MM = 10;
export const ROW_MM = 4.8;
export const RUN_ROW_MM = 4.5;
/** Title and rule of the table of runs. */
export const RUN_HEAD_MM = 5.6;
/** A column of the table of runs is no narrower. */
export const RUN_COLUMN_MM = 76;
export const RUN_GAP_MM = 5;
const CHECK_STRIP_MM = 13;
/** The notes stand higher than the title block. */
const NOTES_OVER_MM = 3;
const NARROW_MM = 130;
/** Rows that a table has beside its own: title and heads. */
export const HEAD_ROWS = 2;
const LEAST_FINDINGS_ROWS = 4;

interface Wanted {
  readonly parts: number;
  readonly runs: number;
}

/** Lays out the sheet at the largest scale that all fits; one scale smaller where only then the tables fit too. */
export function placesOf(scene: GeneralScene, size: PaperSize, wanted: Wanted): SheetPlaces {
  const fits = SCALES.findIndex((scale) => laidOut(scene, size, scale).spareMm >= 0);
  const first = SCALES[fits < 0 ? SCALES.length - 1 : fits] ?? 100;
  const next = SCALES[fits + 1];
  const here = laidOut(scene, size, first);
  if (fits >= 0 && next !== undefined && !holds(here.places, wanted)) {
    const smaller = laidOut(scene, size, next);
    if (holds(smaller.places, wanted)) return smaller.places;
  }
  return here.places;
}

/** Rows of each column of the table of runs that a box takes, and how many columns. */
export function runColumns(box: Box): { readonly columns: number; readonly rows: number } {
  return {
    columns: Math.max(1, Math.floor((box.widthMm + RUN_GAP_MM) / (RUN_COLUMN_MM + RUN_GAP_MM))),
    rows: Math.max(0, Math.floor((box.heightMm - RUN_HEAD_MM) / RUN_ROW_MM)),
  };
}

function holds({ runsBox, partsBox }: SheetPlaces, { parts, runs }: Wanted): boolean {
  const { columns, rows } = runColumns(runsBox);
  return columns * rows >= runs && partsBox.heightMm >= (parts + HEAD_ROWS + LEAST_FINDINGS_ROWS) * ROW_MM;
}

function laidOut(
  { low, high }: GeneralScene,
  size: PaperSize,
  scale: number,
): { readonly places: SheetPlaces; readonly spareMm: number } {
  const paper: Paper = { size, landscape: true };
  const inner = frameBox(paper);
  const k = 1000 / scale;
  const [lengthMm, beamMm, heightMm] = [0, 1, 2].map((axis) => ((high[axis] ?? 0) - (low[axis] ?? 0)) * k) as [
    number,
    number,
    number,
  ];
  const notesWidth = inner.widthMm - TITLE_BLOCK.widthMm - 2 * INSIDE_MM;
  const isNarrow = notesWidth < NARROW_MM;
  const stripMm = TITLE_BLOCK.heightMm + (isNarrow ? CHECK_STRIP_MM : NOTES_OVER_MM);
  const left = inner.x + INSIDE_MM;
  const top = inner.y + GAP_MM;
  const width = inner.widthMm - 2 * INSIDE_MM;
  const foot = inner.y + inner.heightMm - stripMm - 2;
  const listFoot = isNarrow ? foot : inner.y + inner.heightMm - TITLE_BLOCK.heightMm - 2;
  const drawnWidth = Math.max(LEAST_DRAWN_MM, lengthMm + 2 * BESIDE_MM);
  const listWidth = width - drawnWidth - COLUMN_GAP_MM;

  const profileTop = top + CAPTION_MM;
  const planTop = profileTop + heightMm + DIMENSION_MM + 2 * BALLOON_MM;
  const rowBelow = planTop + beamMm + BALLOON_MM;
  const runsTop = rowBelow + BALLOON_MM - 2;
  const right = left + drawnWidth + COLUMN_GAP_MM;
  const partsTop = profileTop + heightMm + DIMENSION_MM + 2 * GAP_MM;

  const view = (frame: ViewFrame, x: number, y: number, u0: number, v1: number, w: number, h: number): ViewPlace => ({
    name: frame.name,
    frame,
    at: ([u, v]) => [x + (u - u0) * k, y + (v1 - v) * k],
    box: { x, y, widthMm: w, heightMm: h },
  });
  const viewLeft = left + BESIDE_MM;
  const sectionLeft = right + Math.max(BESIDE_MM, (listWidth - beamMm) / 2);
  const spareMm = Math.min(
    listWidth - Math.max(LEAST_LIST_MM, beamMm + 2 * BESIDE_MM),
    foot - runsTop + GAP_MM,
    listFoot - partsTop - (HEAD_ROWS + LEAST_FINDINGS_ROWS) * ROW_MM,
  );
  return {
    spareMm,
    places: {
      paper,
      inner,
      scale,
      isNarrow,
      views: {
        profile: view(PROFILE, viewLeft, profileTop, low[0], high[2], lengthMm, heightMm),
        plan: view(PLAN, viewLeft, planTop, low[0], high[1], lengthMm, beamMm),
        section: view(SECTION, sectionLeft, profileTop, -high[1], high[2], beamMm, heightMm),
      },
      balloonRows: [planTop - BALLOON_MM, rowBelow],
      runsBox: { x: left, y: runsTop, widthMm: drawnWidth, heightMm: Math.max(0, foot - runsTop) },
      partsBox: {
        x: right,
        y: partsTop,
        widthMm: Math.max(LEAST_LIST_MM, listWidth),
        heightMm: Math.max(0, listFoot - partsTop),
      },
      notesBox: {
        x: left,
        y: inner.y + inner.heightMm - stripMm,
        widthMm: notesWidth,
        heightMm: stripMm,
      },
    },
  };
}
