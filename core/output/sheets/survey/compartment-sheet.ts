import * as portable from '../../../base/portable';
import type { Vec2 } from '../../../base/vec';
import type { Boat, Compartment, Opening } from '../../../boat/schema/boat';
import type { HullSurface } from '../../../shape/hull/types';
import type { Layout } from '../../../shape/layout/types';
import { gradeText } from '../../text/schema-words';
import { boundsOf as boundsOnPaper } from '../../views/drawing';
import type { Ring } from '../../views/polygons';
import { lengthFigure, type PrintContext } from '../context';
import { type Block, flowSheets, flowWidth } from '../flow';
import { type FormRow, formRows, gradeLegend, heading, notesRows, paragraph } from '../form';
import { LETTERS } from '../letters';
import { outline, rectangle, type Sheet, TEXT, WIDTH } from '../marks';
import { boundsOf, type LocalDatum, localDatums } from './datums';
import { apart, cornerOf, type Dimension, dimensionMarks, drawSketch, type Sketch, sketchOf, stretch } from './sketch';

interface Reading {
  readonly dimension: Omit<Dimension, 'letter'> | null;
  readonly words: string;
  readonly nowM: number | null;
  readonly why?: string;
}

/** Sheets to measure one compartment by: a sketch with lettered arrows, a row with a blank for each, its openings. */
export function compartmentSheets(
  boat: Boat,
  layout: Layout,
  hull: HullSurface | null,
  id: string,
  context: PrintContext,
): Sheet[] {
  const compartment = boat.compartments[id];
  if (!compartment) throw new Error(`compartmentSheets: expected a compartment, got "${id}"`);
  const width = flowWidth(context);
  const sketch = sketchOf(layout, id, hull);
  const datums = localDatums(boat, layout, id);
  const inside = sketch ? insideReadings(sketch) : [];
  const place = placeReadings(layout, id, datums);
  const sides = sketch ? sideReadings(compartment, sketch) : [];
  const readings = [...inside, ...sides.slice(0, LETTERS.length - inside.length - place.length), ...place];
  const lettered = readings.map((reading, i) => ({ ...reading, letter: LETTERS.charAt(i) }));
  const blocks: Block[] = [
    heading(compartment.name, width, context.lettering, TEXT.title),
    paragraph(
      'Read the tape inside, from face to face, on the lining if there is one. Any order; leave blank what you cannot reach. Note the place of anything in the way.',
      width,
      context.lettering,
    ),
  ];
  blocks.push(paragraph(gradeLegend(boat, context), width, context.lettering));
  if (sketch) blocks.push(sketchBlock(sketch, lettered, width));
  const row = ({ letter, words, nowM, why }: (typeof lettered)[number]): FormRow => ({
    letter,
    words,
    now: nowM === null ? '' : lengthFigure(Math.round(nowM * 1000) / 1000, context),
    ...(why === undefined ? {} : { why }),
  });
  blocks.push(...formRows(lettered.map(row), width, context));
  const openings = Object.values(boat.openings).filter((opening) => opening.compartment === id);
  openings.forEach((opening, i) => {
    blocks.push(...openingBlocks(opening, i + 1, width, context));
  });
  const points = Object.entries(boat.survey?.points ?? {}).filter(([, { of }]) =>
    of?.some((path) => path.startsWith(`compartments.${id}.`)),
  );
  blocks.push(
    heading('Anything else', width, context.lettering),
    ...(points.length === 0
      ? []
      : [
          paragraph(
            `Named points here: ${points.map(([point, { name }]) => name ?? point).join(', ')}.`,
            width,
            context.lettering,
          ),
        ]),
    notesRows(['From, to, reading:', 'In the way:'], width, context.lettering),
  );
  return flowSheets(
    blocks,
    {
      sheet: 'Survey',
      subject: compartment.name,
      measured: `so far ${gradeText(compartment.grade)}`,
      scale: 'sketch',
    },
    context,
  );
}

function sketchBlock(
  sketch: Sketch,
  lettered: readonly (Reading & { readonly letter: string })[],
  widthMm: number,
): Block {
  const dimensions = lettered.flatMap(({ dimension, letter }) => (dimension ? [{ ...dimension, letter }] : []));
  return {
    heightMm: drawSketch(sketch, dimensions, [0, 0], widthMm).heightMm,
    draw: (at) => drawSketch(sketch, dimensions, at, widthMm).marks,
  };
}

/** Share of a side that a reading keeps off its ends: a tape does not lie in the corner itself. */
const OFF_END = 0.08;
const ASIDE_MM = 6;

/** Lengths, heights, depths and diagonals inside, as the three cuts show them now. */
function insideReadings({ profile, plan, section }: Sketch): Reading[] {
  const side = boundsOnPaper(profile);
  const end = boundsOnPaper(section);
  const above = boundsOnPaper(plan);
  if (!side || !end || !above) return [];
  const within = (low: number, high: number, share: number): number => low + (high - low) * share;
  const between = (
    view: keyof Sketch,
    ring: Ring,
    axis: 0 | 1,
    share: number,
    asideMm: number,
  ): Pick<Reading, 'dimension' | 'nowM'> => {
    const box = view === 'profile' ? side : view === 'plan' ? above : end;
    const ends = stretch(ring, axis, within(box.low[axis], box.high[axis], share));
    return ends
      ? { dimension: { view, from: ends[0], to: ends[1], asideMm }, nowM: apart(...ends) }
      : { dimension: null, nowM: null };
  };
  const across = (view: keyof Sketch, from: Vec2, to: Vec2): Pick<Reading, 'dimension' | 'nowM'> => ({
    dimension: { view, from, to, asideMm: 0, letterAt: 0.28 },
    nowM: apart(from, to),
  });
  return [
    { words: 'Length along the bottom, fore and aft', ...between('profile', profile, 1, OFF_END, -ASIDE_MM) },
    {
      words: 'Length along the top',
      why: 'with the length below it shows an end that leans.',
      ...between('profile', profile, 1, 1 - OFF_END, ASIDE_MM),
    },
    { words: 'Height at the aft end', ...between('profile', profile, 0, OFF_END, ASIDE_MM) },
    {
      words: 'Height at the forward end',
      why: 'the sole may rise and the top may slope.',
      ...between('profile', profile, 0, 1 - OFF_END, -ASIDE_MM),
    },
    {
      words: 'Diagonal of the long side, lower aft corner to upper forward corner',
      why: 'two diagonals settle whether the corners are square, and find a misread length.',
      ...across('profile', cornerOf(profile, false, false), cornerOf(profile, true, true)),
    },
    {
      words: 'The other diagonal, upper aft corner to lower forward corner',
      why: 'unequal diagonals: read the lengths again.',
      ...across('profile', cornerOf(profile, false, true), cornerOf(profile, true, false)),
    },
    {
      words: 'Depth at the bottom, athwartships, half way along',
      ...between('section', section, 1, OFF_END, -ASIDE_MM),
    },
    { words: 'Depth at the top, half way along', ...between('section', section, 1, 1 - OFF_END, ASIDE_MM) },
    {
      words: 'Depth at half height',
      why: 'three depths give the slope and the round of the hull side.',
      ...between('section', section, 1, 0.5, 0),
    },
    { words: 'Depth at the aft end, at half height', ...between('plan', plan, 0, OFF_END, ASIDE_MM) },
    { words: 'Depth at the forward end, at half height', ...between('plan', plan, 0, 1 - OFF_END, -ASIDE_MM) },
  ];
}

/** Corners of the outline and of its cut are one when they are so near, metres. */
const SAME_CORNER_M = 0.002;
/** A side that is nearly as long as the whole is read as its length, height or depth already. */
const WHOLE_SHARE = 0.95;
const VIEW_WORDS: Readonly<Record<keyof Sketch, string>> = { profile: 'profile', plan: 'plan', section: 'section' };

/** Steps and slants of an outline with more than four corners: each side that the hull has left whole. */
function sideReadings({ view, outline: corners, yawDeg }: Compartment, sketch: Sketch): Reading[] {
  const ring = sketch[view];
  const box = boundsOnPaper(ring);
  if (corners.length <= 4 || yawDeg !== 0 || !box) return [];
  // Looking forward, port is on the left.
  const onPaper = corners.map(([a, b]): Vec2 => (view === 'section' ? [-a, b] : [a, b]));
  const isCorner = (p: Vec2): boolean => ring.some((q) => apart(p, q) < SAME_CORNER_M);
  return onPaper.flatMap((from, i): Reading[] => {
    const to = onPaper[(i + 1) % onPaper.length] ?? from;
    if (!isCorner(from) || !isCorner(to)) return [];
    const isWhole = ([0, 1] as const).some(
      (axis) => Math.abs(to[axis] - from[axis]) > WHOLE_SHARE * (box.high[axis] - box.low[axis]),
    );
    if (isWhole) return [];
    return [
      {
        words: `Side between two corners, in the ${VIEW_WORDS[view]}`,
        nowM: apart(from, to),
        dimension: { view, from, to, asideMm: 0 },
      },
    ];
  });
}

const AXIS_FACES = [
  ['aft end', 'forward end'],
  ['starboard side', 'port side'],
  ['bottom', 'top'],
] as const;

/** Where the compartment is: from something near that a tape can start at. */
function placeReadings(layout: Layout, id: string, datums: readonly LocalDatum[]): Reading[] {
  const bounds = boundsOf(layout, id);
  if (!bounds) return [];
  return datums.map(({ axis, name, atM }): Reading => {
    const toLow = Math.abs(bounds.low[axis] - atM) <= Math.abs(bounds.high[axis] - atM);
    const face = AXIS_FACES[axis][toLow ? 0 : 1];
    const at = toLow ? bounds.low[axis] : bounds.high[axis];
    return {
      dimension: null,
      words: `From ${name} ${wayWords(axis, at - atM)} to its ${face}`,
      nowM: Math.abs(at - atM),
      ...(axis === 2 ? { why: 'hold the tape plumb.' } : {}),
    };
  });
}

const wayWords = (axis: 0 | 1 | 2, by: number): string =>
  axis === 0
    ? by > 0
      ? 'forward'
      : 'aft'
    : axis === 1
      ? by > 0
        ? 'out to port'
        : 'out to starboard'
      : by > 0
        ? 'up'
        : 'down';

const PICTURE: Vec2 = [40, 22];
const PICTURE_ROOM_MM = 34;

/** Clear width, height and both diagonals of an opening, with what must be moved first. */
function openingBlocks(opening: Opening, number: number, widthMm: number, context: PrintContext): Block[] {
  const { widthM, heightM } = opening;
  const diagonal =
    opening.shape === 'rectangle'
      ? lengthFigure(Math.round(portable.hypot(widthM, heightM) * 1000) / 1000, context)
      : '';
  const rows: readonly FormRow[] = [
    { letter: 'W', words: `${opening.name}: clear width`, now: lengthFigure(widthM, context) },
    { letter: 'H', words: 'Clear height', now: lengthFigure(heightM, context) },
    { letter: 'D', words: 'Diagonal, upper left to lower right', now: diagonal },
    {
      letter: 'E',
      words: 'The other diagonal',
      now: diagonal,
      why: 'a frame that leans passes less than width and height promise.',
    },
  ];
  return [
    heading(`Opening ${number}: ${opening.name}`, widthMm, context.lettering),
    {
      heightMm: PICTURE_ROOM_MM,
      withNext: true,
      draw: ([x, y]) => {
        const share = Math.min(PICTURE[0] / widthM, PICTURE[1] / heightM);
        const [w, h] = [widthM * share, heightM * share];
        const left = x + 14;
        const top = y + 3;
        const corner = (dx: number, dy: number): Vec2 => [left + w * dx, top + h * dy];
        return [
          outline(rectangle(left, top, w, h), { widthMm: WIDTH.outline }),
          ...dimensionMarks(corner(0, 1), corner(1, 1), -5, 'W'),
          ...dimensionMarks(corner(0, 1), corner(0, 0), 5, 'H'),
          ...dimensionMarks(corner(0, 0), corner(1, 1), 0, 'D', 0.28),
          ...dimensionMarks(corner(0, 1), corner(1, 0), 0, 'E', 0.28),
        ];
      },
    },
    ...formRows(rows, widthMm, context),
    notesRows(
      [`Moved first${opening.moveFirst.length > 0 ? ` (so far: ${opening.moveFirst.join(', ')})` : ''}:`],
      widthMm,
      context.lettering,
    ),
  ];
}
