import { assumptionTexts } from '../../text/assumption-text';
import { lengthWords, type PrintContext } from '../context';
import { arrow, DASH, line, type Mark, TEXT, text, WIDTH, wrapped } from '../marks';
import { checkLine, type Paper, scaleBar } from '../paper';
import { balloonMarks } from './balloons';
import { findingsOnSheet, partsOnSheet, runsOnSheet } from './first-lists';
import { placesOf, type SheetPlaces } from './places';
import type { GeneralScene } from './scene';
import { viewMarks } from './views';
import { wordsOn } from './words';

export interface FirstSheet {
  readonly paper: Paper;
  readonly scale: number;
  readonly marks: readonly Mark[];
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
  const runs = runsOnSheet(planned, scene, places.runsBox, context);
  const parts = partsOnSheet(numbered, places.partsBox, runs.isWhole, context);
  const { partsBox, runsBox } = places;
  const belowParts = { ...partsBox, y: parts.endMm, heightMm: partsBox.y + partsBox.heightMm - parts.endMm };
  // Where the runs stand on the next sheet, their room is for the findings.
  const findings = findingsOnSheet(scene, runs.isWhole ? belowParts : runsBox, context);
  return {
    paper: places.paper,
    scale: places.scale,
    marks: [
      ...drawn.profile.marks,
      ...drawn.section.marks,
      ...drawn.plan.marks,
      ...centreLines(places),
      ...wordsOn(drawn.plan, plan, places.scale, context.lettering),
      ...wordsOn({ ...drawn.profile, names: [] }, profile, places.scale, context.lettering),
      ...balloonMarks(scene, plan, { rows: places.balloonRows, captionMm: CAPTION_WIDTH_MM }),
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

/** The caption of the plan stands at the beginning of the upper row of balloons. */
const CAPTION_WIDTH_MM = 26;

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
  const foot = profile.box.y + profile.box.heightMm + 7.5;
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
