import type { Vec2 } from '../../../base/vec';
import type { Thing } from '../../../boat/schema/boat';
import { MEDIUM_WORDS, mediumText } from '../../text/schema-words';
import { lengthFigure, lengthWords, type Made, type PrintContext, titleFields, unitWords } from '../context';
import { area, DASH, line, type Mark, outline, shortened, TEXT, text, WIDTH, wrapped } from '../marks';
import { type Box, checkLine, frameBox, framedSheet, type Paper, scaleBar, scaleFor, TITLE_BLOCK } from '../paper';
import { columnsTable, TABLE_ROW_MM } from '../table';
import { type Tiling, tileSheets, tilingOf } from '../tiles';
import {
  directionWords,
  drawPort,
  drawService,
  type FaceWords,
  faceWords,
  type PortMark,
  placeWords,
  portMarks,
  type ServiceMark,
  serviceMarks,
  serviceWords,
} from './faces';
import { type Net, type NetFace, netsOf } from './net';

/** More sheets than this nobody prints, cuts and glues. */
export const MOST_SHEETS = 120;

/**
 * A cardboard mock-up of a part, 1:1: a key sheet, then its envelope unfolded over as many tiles as it takes. Carried
 * aboard it shows what no drawing does: whether it goes through the lid and whether an arm gets round it.
 */
export function mockUpSheets(part: Thing, context: PrintContext): Made {
  const choice = leastPaper(part, context);
  if (choice === null)
    return {
      problem: `${part.name} is ${sizeWords(part, context)}: more than ${MOST_SHEETS} sheets at full size. ${
        context.paper === 'A3' ? 'Check its size.' : 'Choose A3, or check its size.'
      }`,
    };
  const { net, tiling } = choice;
  const ports = portMarks(part, net);
  const services = serviceMarks(part, net);
  const marks = netMarks(part, net, tiling, ports, services, context);
  const of = tiling.tiles.length + 1;
  return {
    sheets: [
      keySheet(part, net, tiling, ports, services, of, context),
      ...tileSheets(tiling, marks, { title: part.name, first: 2, of }, context.lettering),
    ],
  };
}

/** Of all ways to unfold and to turn the paper the one with the fewest sheets; null if even that is too many. */
function leastPaper(part: Thing, { paper }: PrintContext): { readonly net: Net; readonly tiling: Tiling } | null {
  let best: { readonly net: Net; readonly tiling: Tiling } | null = null;
  for (const net of netsOf(part.shape))
    for (const landscape of [false, true]) {
      const tiling = tilingOf(net.size, net.cuts, { size: paper, landscape });
      if (tiling && tiling.tiles.length < (best?.tiling.tiles.length ?? MOST_SHEETS)) best = { net, tiling };
    }
  return best;
}

/** `520 × 300 × 280 mm`, or diameter and length. */
function sizeWords({ shape }: Pick<Thing, 'shape'>, context: PrintContext): string {
  const figures =
    shape.type === 'box'
      ? shape.sizeM.map((size) => lengthFigure(size, context)).join(' × ')
      : `Ø ${lengthFigure(shape.diameterM, context)} × ${lengthFigure(shape.lengthM, context)}`;
  return `${figures} ${unitWords(context)}`;
}

const CUT = { widthMm: WIDTH.outline };
const FOLD = { widthMm: WIDTH.joinery, dashMm: DASH.fold };

function shapeMarks(net: Net): Mark[] {
  return [
    ...net.flaps.map((ring) => area([ring], 'tint')),
    ...net.folds.map((fold) => line(fold, FOLD)),
    ...net.cuts.map((ring) => outline(ring, CUT)),
  ];
}

function netMarks(
  part: Thing,
  net: Net,
  tiling: Tiling,
  ports: readonly PortMark[],
  services: readonly ServiceMark[],
  context: PrintContext,
): Mark[] {
  return [
    ...services.flatMap((mark) =>
      drawService(mark, services.filter(({ face, number }) => face === mark.face && number < mark.number).length),
    ),
    ...shapeMarks(net),
    ...net.faces.flatMap((face) =>
      placeWords(wordsOf(part, face, ports, services, context), ports, tiling, context.lettering),
    ),
    ...ports.flatMap(drawPort),
  ];
}

function wordsOf(
  part: Thing,
  face: NetFace,
  ports: readonly PortMark[],
  services: readonly ServiceMark[],
  context: PrintContext,
): FaceWords {
  const rows = [{ words: `${faceWords(face)}, ${part.name}`, strong: true }];
  if (isFixedBy(part, face)) rows.push({ words: 'This face is fixed to the boat.', strong: false });
  for (const mark of ports)
    if (mark.face === face) rows.push({ words: `${mark.letter}  ${portWords(mark, context)}`, strong: false });
  for (const mark of services)
    if (mark.face === face) rows.push({ words: `${mark.number}  ${roomWords(mark, context)}`, strong: false });
  return { face, rows };
}

/** Only a part to be placed says which of its faces is screwed on. */
const isFixedBy = ({ mounting }: Thing, { way }: NetFace): boolean =>
  typeof mounting === 'object' && mounting !== null && 'face' in mounting && mounting.face === way;

/** `in, bore 19 mm, sea water, leaves aft`. */
function portWords({ id, port, offM, slantDeg }: PortMark, context: PrintContext): string {
  const words = [id];
  if (port.boreM !== undefined) words.push(`bore ${lengthWords(port.boreM, context)}`);
  if (port.medium !== undefined) words.push(mediumText(port.medium));
  words.push(`leaves ${directionWords(port.direction)}`);
  if (slantDeg > 5 && slantDeg < 85) words.push(`${Math.round(slantDeg)}° from straight out`);
  if (port.straightM > 0) words.push(`straight for ${lengthWords(port.straightM, context)}`);
  if (offM > STANDS_OFF_M) words.push(`stands ${lengthWords(offM, context)} off this face`);
  return words.join(', ');
}
const STANDS_OFF_M = 0.001;

/** `bowl drop: 60 mm free down, 135 × 135 mm`. */
function roomWords({ service }: ServiceMark, context: PrintContext): string {
  const [width, height] = service.acrossM;
  const across = service.round
    ? `Ø ${lengthFigure(width, context)}`
    : `${lengthFigure(width, context)} × ${lengthFigure(height, context)}`;
  return `${serviceWords(service)}: ${lengthWords(service.clearM, context)} free ${directionWords(service.direction)}, ${across} ${unitWords(context)}`;
}

const STEPS: readonly string[] = [
  'Print at 100 %, not fitted to the page. Measure the 100 mm line on every sheet.',
  'Trim one tile of each pair along the dotted seam, lay it on its neighbour by the crosses, glue.',
  'Glue the whole on card. Cut along solid lines, score and fold along dashed ones, glue the grey flaps under.',
  'Take it aboard: through the lid, into its place, round it with both hands, a spanner and a bowl.',
];

function cautionsOf(part: Thing, context: PrintContext): string[] {
  const cautions = [
    part.massKg > 0
      ? `The card shows size and reach, not weight: the part weighs ${Math.round(part.massKg * 10) / 10} kg.`
      : 'The card shows size and reach, not weight.',
    `It is the envelope, ${sizeWords(part, context)} outside. Thick card adds its thickness: keep it under 2 mm.`,
    'Switch off pumps and motors before you reach round them. Keep fingers out of the steering.',
  ];
  if (part.source) cautions.push(`Sizes: ${part.source}.`);
  return cautions;
}

/** The first sheet: the net in small with its tiles, what to do, and what the letters and figures on it mean. */
function keySheet(
  part: Thing,
  net: Net,
  tiling: Tiling,
  ports: readonly PortMark[],
  services: readonly ServiceMark[],
  of: number,
  context: PrintContext,
) {
  const { lettering } = context;
  const paper: Paper = { size: context.paper, landscape: false };
  const inner = frameBox(paper);
  const x = inner.x + 7;
  const width = inner.widthMm - 14;
  const marks: Mark[] = [];
  let y = inner.y + 14;
  marks.push(
    text(shortened(`Cardboard mock-up: ${part.name}`, width, lettering, TEXT.title, 'strong'), [x, y], {
      sizeMm: TEXT.title,
      face: 'strong',
    }),
  );
  y += 8;
  const paragraph = (words: string, lead: string): void => {
    const rows = wrapped(words, width - 6, lettering);
    marks.push(text(lead, [x, y], { face: 'strong' }));
    for (const row of rows) {
      marks.push(text(row, [x + 6, y]));
      y += LEADING_MM;
    }
    y += 1;
  };
  for (const [i, step] of STEPS.entries()) paragraph(step, String(i + 1));
  y += 1;
  for (const caution of cautionsOf(part, context)) paragraph(caution, '!');
  const foot = inner.y + inner.heightMm - TITLE_BLOCK.heightMm - 10;
  marks.push(...checkLine([x, foot]));
  const listed = tablesOf(ports, services, context);
  const tablesHigh = listed.reduce((sum, table) => sum + 14 + table.rows.length * TABLE_ROW_MM, 0);
  const drawingLow = y + 2;
  const room = foot - 12 - drawingLow;
  const drawingHigh = Math.max(50, Math.min(room - tablesHigh, room * 0.7));
  marks.push(...smallNet(net, tiling, ports, { x, y: drawingLow, widthMm: width, heightMm: drawingHigh }));
  y = drawingLow + drawingHigh + 8;
  for (const table of listed) {
    if (y + 14 > foot - 8) break;
    const fits = Math.max(0, Math.floor((foot - 8 - y - 8) / TABLE_ROW_MM));
    const drawn = columnsTable({ ...table, rows: table.rows.slice(0, fits) }, [x, y], width, lettering);
    marks.push(...drawn.marks);
    y = drawn.endMm + 8;
  }
  const fields = titleFields(context, {
    sheet: 'Mock-up, key',
    subject: part.tag ? `${part.name} (${part.tag})` : part.name,
    measured: part.grade ?? 'from the data sheet',
    scale: '1 : 1',
    number: 1,
    of,
  });
  return framedSheet(paper, fields, lettering, marks);
}

const LEADING_MM = 4.4;

function tablesOf(ports: readonly PortMark[], services: readonly ServiceMark[], context: PrintContext) {
  const portTable = {
    title: 'Ports',
    heads: ['', 'Port', 'Face', 'Bore', 'What flows', 'Leaves', `Straight, ${unitWords(context)}`],
    shares: [0.05, 0.16, 0.18, 0.1, 0.17, 0.2, 0.14],
    rows: ports.map(({ letter, id, port, face }) => [
      letter,
      id,
      faceWords(face),
      port.boreM === undefined ? '' : lengthFigure(port.boreM, context),
      port.medium === undefined ? '' : MEDIUM_WORDS[port.medium],
      directionWords(port.direction),
      port.straightM > 0 ? lengthFigure(port.straightM, context) : '',
    ]),
  };
  const serviceTable = {
    title: 'Room wanted for service',
    heads: ['', 'Task', 'Face', `Free, ${unitWords(context)}`, 'Towards', `Across, ${unitWords(context)}`],
    shares: [0.05, 0.27, 0.2, 0.13, 0.17, 0.18],
    rows: services.map(({ number, service, face }) => [
      String(number),
      serviceWords(service),
      faceWords(face),
      lengthFigure(service.clearM, context),
      directionWords(service.direction),
      service.round
        ? `Ø ${lengthFigure(service.acrossM[0], context)}`
        : `${lengthFigure(service.acrossM[0], context)} × ${lengthFigure(service.acrossM[1], context)}`,
    ]),
  };
  return [portTable, serviceTable].filter(({ rows }) => rows.length > 0);
}

/** The net at a standard scale with the tiles laid over it. */
function smallNet(net: Net, tiling: Tiling, ports: readonly PortMark[], box: Box): Mark[] {
  const low: Vec2 = [Math.min(...tiling.tiles.map((t) => t.low[0])), Math.min(...tiling.tiles.map((t) => t.low[1]))];
  const high: Vec2 = [Math.max(...tiling.tiles.map((t) => t.high[0])), Math.max(...tiling.tiles.map((t) => t.high[1]))];
  const size: Vec2 = [high[0] - low[0], high[1] - low[1]];
  const scale = scaleFor([size[0] / 1000, size[1] / 1000], { widthMm: box.widthMm, heightMm: box.heightMm - 10 });
  const left = box.x + (box.widthMm - size[0] / scale) / 2;
  const top = box.y + 10;
  const place = ([px, py]: Vec2): Vec2 => [left + (px - low[0]) / scale, top + (py - low[1]) / scale];
  const small = (mark: Mark): Mark => {
    if (mark.kind === 'area') return { ...mark, rings: mark.rings.map((ring) => ring.map(place)) };
    if (mark.kind === 'line')
      return {
        ...mark,
        points: mark.points.map(place),
        widthMm: Math.min(mark.widthMm, WIDTH.wall),
        dashMm: mark.dashMm.map((dash) => dash / 3),
      };
    return { ...mark, at: place(mark.at) };
  };
  const marks: Mark[] = [
    text('The tiles', [box.x, box.y + 4], { face: 'strong' }),
    ...scaleBar([box.x + 30, box.y + 3], scale),
  ];
  marks.push(...shapeMarks(net).map(small));
  for (const tile of tiling.tiles) {
    const [a, b] = [place(tile.low), place(tile.high)];
    marks.push(
      outline([a, [b[0], a[1]], b, [a[0], b[1]]], { widthMm: WIDTH.hair, ink: 'second' }),
      text(tile.name, [(a[0] + b[0]) / 2, (a[1] + b[1] + TEXT.body) / 2], {
        anchor: 'middle',
        face: 'strong',
        boxed: true,
      }),
    );
  }
  for (const { letter, at } of ports) {
    const [px, py] = place(at);
    marks.push(text(letter, [px, py + TEXT.body / 2], { anchor: 'middle', boxed: true }));
  }
  return marks;
}
