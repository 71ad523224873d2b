import type { Vec2 } from '../../../base/vec';
import { assumptionTexts } from '../../text/assumption-text';
import { abbreviated, type Candidate, placeLabels, type Rect } from '../../views/labels';
import { lengthWords, type PrintContext } from '../context';
import { arrow, DASH, line, type Mark, TEXT, text, WIDTH, wrapped } from '../marks';
import { checkLine, type Paper, scaleBar } from '../paper';
import { balloonMarks } from './balloons';
import { findingsOnSheet, partsOnSheet, runsOnSheet } from './first-lists';
import { inkOfRun, runWords } from './line-looks';
import { placesOf, type SheetPlaces, type ViewPlace } from './places';
import type { GeneralScene } from './scene';
import { type ViewMarks, viewMarks } from './views';

export interface FirstSheet {
  readonly paper: Paper;
  readonly scale: number;
  readonly marks: readonly Mark[];
  /** Whether every part and every run of the plan stands in the tables of the sheet. */
  readonly hasAllParts: boolean;
  readonly hasAllRuns: boolean;
}

/** Three views with their numbers and letters, parts, runs, open findings, scale bar, check line and what was reckoned with. */
export function firstSheet(scene: GeneralScene, context: PrintContext): FirstSheet {
  const planned = scene.runs.filter(({ line: { existing } }) => !existing);
  const numbered = scene.things.filter(({ number }) => number !== null);
  const places = placesOf(scene, context.paper, { parts: numbered.length, runs: planned.length });
  const { profile, section, plan } = places.views;
  const drawn = {
    profile: viewMarks(scene, profile),
    section: viewMarks(scene, section),
    plan: viewMarks(scene, plan),
  };
  const parts = partsOnSheet(numbered, places.partsBox, context);
  const runs = runsOnSheet(planned, scene, places.runsBox, context);
  const findings = findingsOnSheet(
    scene,
    { ...places.partsBox, y: parts.endMm, heightMm: places.partsBox.y + places.partsBox.heightMm - parts.endMm },
    context,
  );
  return {
    paper: places.paper,
    scale: places.scale,
    hasAllParts: parts.isWhole,
    hasAllRuns: runs.isWhole,
    marks: [
      ...drawn.profile.marks,
      ...drawn.section.marks,
      ...drawn.plan.marks,
      ...centreLines(places),
      ...wordsOn(drawn.plan, plan, places, context, true),
      ...wordsOn(drawn.profile, profile, places, context, false),
      ...balloonMarks(scene, places),
      ...captions(scene, places, context),
      ...dimensions(scene, places, context),
      ...cutMarks(scene, places),
      ...parts.marks,
      ...runs.marks,
      ...findings,
      ...notes(scene, places, context),
    ],
  };
}

/** Captions stand level with the frame's top and with the upper row of balloons. */
function captions({ sectionX }: GeneralScene, places: SheetPlaces, context: PrintContext): Mark[] {
  const strong = { sizeMm: TEXT.heading, face: 'strong' as const };
  const top = places.inner.y + 8;
  const left = places.runsBox.x;
  return [
    text('Profile', [left, top], strong),
    text(`Section A, at ${lengthWords(sectionX, context)}, looking forward`, [places.partsBox.x, top], strong),
    text('Plan', [left, places.balloonRows[0] + TEXT.heading / 2], strong),
  ];
}

function centreLines({ views: { plan, section } }: SheetPlaces): Mark[] {
  const look = { widthMm: WIDTH.hair, dashMm: DASH.centre, ink: 'second' as const };
  const [, y] = plan.at([0, 0]);
  const [x] = section.at([0, 0]);
  return [
    line(
      [
        [plan.box.x - 5, y],
        [plan.box.x + plan.box.widthMm + 5, y],
      ],
      look,
    ),
    line(
      [
        [x, section.box.y - 4],
        [x, section.box.y + section.box.heightMm + 3],
      ],
      look,
    ),
  ];
}

/** Where the section is cut: heavy strokes above and below the profile, with the letter and the way one looks. */
function cutMarks({ sectionX }: GeneralScene, { views: { profile } }: SheetPlaces): Mark[] {
  const [x] = profile.at([sectionX, 0]);
  const foot = profile.box.y + profile.box.heightMm;
  return [
    [profile.box.y - 5.5, profile.box.y - 1.5],
    [foot + 1, foot + 4.5],
  ].flatMap(([from = 0, to = 0], i) => [
    line(
      [
        [x, from],
        [x, to],
      ],
      { widthMm: WIDTH.frame },
    ),
    ...arrow([x, i === 0 ? from : to], [1, 0], 5),
    text('A', [x - 1.2, i === 0 ? from + 2.5 : to], { anchor: 'end', face: 'strong' }),
  ]);
}

/** Length, beam and depth over all that is drawn of the hull. */
function dimensions({ hull, low, high }: GeneralScene, { views }: SheetPlaces, context: PrintContext): Mark[] {
  if (!hull) return [];
  const { profile, section } = views;
  const foot = profile.box.y + profile.box.heightMm + 6.5;
  const [aft] = profile.at([hull.aftM, 0]);
  const [forward] = profile.at([hull.forwardM, 0]);
  const [port] = section.at([-high[1], 0]);
  const [starboard] = section.at([-low[1], 0]);
  return [
    ...dimension(aft, forward, foot, `hull ${lengthWords(hull.forwardM - hull.aftM, context)}`, context),
    ...dimension(port, starboard, foot, `beam ${lengthWords(high[1] - low[1], context)}`, context),
  ];
}

function dimension(from: number, to: number, y: number, words: string, { lettering }: PrintContext): Mark[] {
  const middle = (from + to) / 2;
  const room = lettering.width(words, TEXT.body) / 2 + 1.5;
  if (to - from < 2 * room + 6) return [];
  const tick = (x: number): Mark =>
    line(
      [
        [x, y - 2],
        [x, y + 1.2],
      ],
      { widthMm: WIDTH.dimension },
    );
  return [
    tick(from),
    tick(to),
    ...arrow([middle - room, y], [-1, 0], middle - room - from),
    ...arrow([middle + room, y], [1, 0], to - middle - room),
    text(words, [middle, y + TEXT.body / 2], { anchor: 'middle' }),
  ];
}

const LETTER_PLACES = [0.5, 0.36, 0.64, 0.24, 0.76, 0.14, 0.86];
const SPOT_MM = 2;
const WORD_HEIGHT_MM = 3.4;

/** Letters of the runs, then names of places, each where nothing else stands; what finds no room is left to the tables. */
function wordsOn(
  { runs, names, bodies }: ViewMarks,
  place: ViewPlace,
  places: SheetPlaces,
  { lettering }: PrintContext,
  withNames: boolean,
): Mark[] {
  const wide = (words: string, face: 'strong' | 'place'): number => lettering.width(words, TEXT.body, face) + 1.6;
  const letters = runs.flatMap(({ run, pieces }): Candidate[] => {
    const words = runWords(run.tag, run.style);
    const points = pieces.reduce<readonly Vec2[]>(
      (best, piece) => (lengthOf(piece) > lengthOf(best) ? piece : best),
      [],
    );
    const width = wide(words, 'strong');
    if (lengthOf(points) < width + 3) return [];
    const spots = LETTER_PLACES.map((share) => along(points, share));
    return [{ id: run.path.id, rank: 0, width, height: WORD_HEIGHT_MM, places: spots }];
  });
  const taken = bodies.filter(({ isPart }) => isPart).map(({ low, high }) => rectOf(low, high));
  const letterPlaces = placeLabels(letters, taken);
  const inks = new Map(runs.map(({ run }) => [run.path.id, run]));
  const marks: Mark[] = [...letterPlaces].flatMap(([id, [x, y]]) => {
    const run = inks.get(id);
    if (!run) return [];
    const words = runWords(run.tag, run.style);
    const ink = inkOfRun(run.style);
    return [text(words, [x, y + TEXT.body / 2], { anchor: 'middle', face: 'strong', ink, boxed: true })];
  });
  if (!withNames) return marks;
  const spots = runs.flatMap(({ pieces }) => pieces.flatMap(spotsAlong));
  const used = [
    ...bodies.map(({ low, high }) => rectOf(low, high)),
    ...spots,
    ...letters.flatMap(({ id, width }) => {
      const at = letterPlaces.get(id);
      return at ? [around(at, width)] : [];
    }),
  ];
  const wishes = names.flatMap(({ name, at, widthM, heightM }, i): Candidate[] => {
    const room = (widthM * 1000) / places.scale - 1;
    const words = [name, abbreviated(name)].find((said) => wide(said, 'place') <= room);
    if (words === undefined) return [];
    const [x, y] = place.at(at);
    const aside = (heightM * 500) / places.scale - WORD_HEIGHT_MM / 2;
    if (aside < 0) return [];
    const tries = [0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1, -1].map((share): Vec2 => [x, y + share * aside]);
    return [{ id: `${i}|${words}`, rank: 1, width: wide(words, 'place'), height: WORD_HEIGHT_MM, places: tries }];
  });
  for (const [id, [x, y]] of placeLabels(wishes, used))
    marks.push(
      text(id.slice(id.indexOf('|') + 1), [x, y + TEXT.body / 2], {
        anchor: 'middle',
        face: 'place',
        ink: 'second',
        boxed: true,
      }),
    );
  return marks;
}

const rectOf = ([x0, y0]: Vec2, [x1, y1]: Vec2): Rect => ({ x: x0, y: y0, w: x1 - x0, h: y1 - y0 });
const around = ([x, y]: Vec2, width: number): Rect => ({
  x: x - width / 2,
  y: y - WORD_HEIGHT_MM / 2,
  w: width,
  h: WORD_HEIGHT_MM,
});

const lengthOf = (points: readonly Vec2[]): number =>
  points.reduce((sum, [x, y], i) => {
    const before = points[i - 1];
    return before ? sum + Math.hypot(x - before[0], y - before[1]) : sum;
  }, 0);

function along(points: readonly Vec2[], share: number): Vec2 {
  let left = lengthOf(points) * share;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1] as Vec2, points[i] as Vec2];
    const step = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (left <= step && step > 0) return [a[0] + ((b[0] - a[0]) * left) / step, a[1] + ((b[1] - a[1]) * left) / step];
    left -= step;
  }
  return points[points.length - 1] ?? [0, 0];
}

function spotsAlong(points: readonly Vec2[]): Rect[] {
  const length = lengthOf(points);
  const count = Math.max(1, Math.ceil(length / SPOT_MM));
  return Array.from({ length: count + 1 }, (_, i): Rect => {
    const [x, y] = along(points, i / count);
    return { x: x - 0.6, y: y - 0.6, w: 1.2, h: 1.2 };
  });
}

const LEADING_MM = 3.9;

/** Scale bar, check line, and what was reckoned with, left of the title block. */
function notes(scene: GeneralScene, places: SheetPlaces, context: PrintContext): Mark[] {
  const { notesBox, isNarrow, scale } = places;
  const { x, y, widthMm, heightMm } = notesBox;
  const said = assumptionTexts(scene.boat, scene.arrangement, (metres) => lengthWords(metres, context)).join(' ');
  const lines = wrapped(said, widthMm, context.lettering);
  const base = y + heightMm - 3 - (lines.length - 1) * LEADING_MM;
  const words = lines.map((words_, i) => text(words_, [x, base + i * LEADING_MM]));
  if (isNarrow)
    return [
      ...scaleBar([x, y + 6], scale),
      ...checkLine([places.inner.x + places.inner.widthMm - 107, y + 7]),
      ...words,
    ];
  return [...scaleBar([x, y + 5.5], scale), ...checkLine([x, base - TEXT.body - 4]), ...words];
}
