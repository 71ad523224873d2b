import type { Boat } from '../../../boat/schema/boat';
import { HAZARDS, type Hazard } from '../../../rules/hazard';
import { bagsOf } from '../../takeoff/bags';
import type { TakeoffRow } from '../../takeoff/row';
import { priceOf, stillToBuy, stockOf } from '../../takeoff/stock';
import { edgesText, GROUP_TEXT } from '../../takeoff/words';
import { assumptionTexts } from '../../text/assumption-text';
import { cautionTexts } from '../../text/caution-text';
import { before, isOpen, markOfFinding } from '../../text/finding-order';
import { findingText } from '../../text/finding-text';
import { digits } from '../../text/quantity-text';
import { lengthFigure, lengthWords, type PrintContext, unitWords } from '../context';
import { type Block, flowWidth } from '../flow';
import { heading, paragraph } from '../form';
import { type Mark, TEXT, text, wrapped } from '../marks';
import { findingMark } from './first-lists';
import type { GeneralInput } from './general';
import { planHazards } from './plan-hazards';
import { arrangementText } from './scene';
import { tableBlocks } from './table-blocks';

/** What follows the drawing: the list, the cuts, the holes, the bags, the open findings with their cautions, what was reckoned with. */
export function listBlocks({ boat, report }: GeneralInput, context: PrintContext): Block[] {
  const width = flowWidth(context);
  const { takeoff } = report;
  return [
    ...listOf(takeoff, boat, width, context),
    ...runsOf(boat, report, width, context),
    ...cutsOf(takeoff, width, context),
    ...holesOf(takeoff, width, context),
    ...bagsBlocks(takeoff, width, context),
    ...findingsOf(boat, report, width, context),
    ...reckonedWith(boat, report, width, context),
  ];
}

function listOf(rows: readonly TakeoffRow[], boat: Boat, width: number, context: PrintContext): Block[] {
  const price = priceOf(rows);
  const amount = (row: TakeoffRow, value: number): string => digits(value, row.unit === 'm' ? 2 : 0);
  return [
    heading('Parts and lengths', width, context.lettering, TEXT.title),
    paragraph(
      'Numbers are those of the balloons. Lengths as a range: as short and as long as the accuracy of the ends, or the reserve, may make them.',
      width,
      context.lettering,
    ),
    ...tableBlocks(
      {
        heads: ['No.', 'Item', 'Needed', 'From, to', 'Buy', '', 'Still', 'Place, note'],
        shares: [0.05, 0.32, 0.08, 0.12, 0.07, 0.04, 0.07, 0.25],
        numbers: [2, 3, 4, 6],
        groups: rows.map(({ group }) => GROUP_TEXT[group]),
        rows: rows.map((row, i) => [
          String(i + 1),
          row.item,
          amount(row, row.quantity),
          row.leastM === undefined || row.greatestM === undefined
            ? ''
            : `${digits(row.leastM, 2)} to ${digits(row.greatestM, 2)}`,
          row.buy > 0 ? amount(row, row.buy) : '',
          row.unit === 'm' ? 'm' : 'pc',
          isTouched(boat, row) ? amount(row, stillToBuy(row, boat.stock)) : '',
          [row.group === 'hole' ? `in ${row.place}` : row.place, row.group === 'hole' ? '' : row.note]
            .filter((words) => words !== '')
            .join('; '),
        ]),
      },
      width,
      context.lettering,
    ),
    ...(price
      ? [
          paragraph(
            `Sum of the prices that the file has: ${digits(price.sum, 2)}.${price.unknown === 0 ? '' : ` ${price.unknown} rows to be bought have no price.`}`,
            width,
            context.lettering,
          ),
        ]
      : []),
  ];
}

/** Something of the row is there or bought. */
function isTouched(boat: Boat, row: TakeoffRow): boolean {
  const { have, bought } = stockOf(boat.stock, row.key);
  return have > 0 || bought > 0;
}

function runsOf(boat: Boat, report: GeneralInput['report'], width: number, context: PrintContext): Block[] {
  const planned = report.runs.filter(({ lineId }) => boat.lines[lineId] && !boat.lines[lineId].existing);
  if (planned.length === 0) return [];
  const named = (id: string): string => (boat.parts[id] ?? boat.fixtures[id])?.name ?? id;
  return [
    heading('Runs', width, context.lettering),
    ...tableBlocks(
      {
        heads: ['Mark', 'Run', 'From', 'To', 'Lies, m', 'Holes'],
        shares: [0.09, 0.31, 0.22, 0.22, 0.09, 0.07],
        numbers: [4, 5],
        rows: planned.flatMap(({ lineId, lengthM, holes }) => {
          const line = boat.lines[lineId];
          if (!line) return [];
          return [
            [
              line.tag ?? lineId,
              line.name,
              named(line.from.thing),
              named(line.to.thing),
              lengthM === null ? 'no way' : digits(lengthM, 2),
              holes.length === 0 ? '' : String(holes.length),
            ],
          ];
        }),
      },
      width,
      context.lettering,
    ),
  ];
}

function cutsOf(rows: readonly TakeoffRow[], width: number, context: PrintContext): Block[] {
  const figure = (metres: number): string => lengthFigure(metres, context);
  const lines = rows.flatMap((row) =>
    (row.cuts ?? []).flatMap(({ lengthM, supplied, name, pieces, wasteM }) =>
      pieces.map(({ name: piece, lengthM: toM }, i) => [
        i === 0 ? row.item : '',
        i === 0 ? `${figure(lengthM)}${supplied ? `, ${name}` : name === '' ? '' : `, ${name}`}` : '',
        piece,
        figure(toM),
        i === pieces.length - 1 ? figure(wasteM) : '',
      ]),
    ),
  );
  if (lines.length === 0) return [];
  return [
    heading(`What to cut from which length, ${unitWords(context)}`, width, context.lettering),
    paragraph(
      'Cut the longest piece first, each a little long and last of all to its length on board. What is left holds the reserve.',
      width,
      context.lettering,
    ),
    ...tableBlocks(
      {
        heads: ['Kind', 'Cut from', 'Piece', 'Cut to', 'Left'],
        shares: [0.26, 0.24, 0.28, 0.11, 0.11],
        numbers: [3, 4],
        rows: lines,
      },
      width,
      context.lettering,
    ),
  ];
}

function holesOf(rows: readonly TakeoffRow[], width: number, context: PrintContext): Block[] {
  const holes = rows.flatMap((row, i) => (row.hole ? [{ ...row.hole, item: row.item, number: i + 1 }] : []));
  if (holes.length === 0) return [];
  return [
    heading('Holes to drill, mm', width, context.lettering),
    paragraph(
      'Measured from sides that a rule can be laid against where one drills. Look behind the panel before the bit goes through; drill a small hole first and try it with a wire.',
      width,
      context.lettering,
    ),
    ...tableBlocks(
      {
        heads: ['No.', 'Panel', 'Dia.', 'Thick', 'Drill from', 'Centre', 'For'],
        shares: [0.05, 0.2, 0.06, 0.06, 0.15, 0.25, 0.23],
        numbers: [2, 3],
        rows: holes.map(({ number, panel, diameterM, thicknessM, drillFrom, edges, item }) => [
          String(number),
          panel,
          digits(diameterM * 1000, 0),
          thicknessM === null ? '' : digits(thicknessM * 1000, 0),
          drillFrom ?? 'not known: draw the opening',
          edgesText(edges),
          item.replace(/^Hole \d+ mm for /, ''),
        ]),
      },
      width,
      context.lettering,
    ),
  ];
}

function bagsBlocks(rows: readonly TakeoffRow[], width: number, context: PrintContext): Block[] {
  const bags = bagsOf(rows.filter(({ group }) => HARDWARE.has(group)));
  if (bags.length === 0) return [];
  const numberOf = new Map(rows.map((row, i) => [row.key, i + 1]));
  return [
    heading('Hardware by place: a bag for each', width, context.lettering),
    ...tableBlocks(
      {
        heads: ['No.', 'Item', 'Pieces', 'For'],
        shares: [0.06, 0.32, 0.08, 0.54],
        numbers: [2],
        groups: bags.flatMap(({ place, contents }) => contents.map(() => place)),
        rows: bags.flatMap(({ contents }) =>
          contents.map(({ row, quantity, what }) => [
            String(numberOf.get(row.key) ?? ''),
            row.item,
            String(quantity),
            row.group === 'clip' ? '' : what,
          ]),
        ),
      },
      width,
      context.lettering,
    ),
  ];
}

const HARDWARE: ReadonlySet<TakeoffRow['group']> = new Set(['end', 'clamp', 'clip', 'screw', 'grommet', 'label']);
const LEADING_MM = 4.2;
const MARK_ROOM_MM = 9;

function findingsOf(boat: Boat, report: GeneralInput['report'], width: number, context: PrintContext): Block[] {
  const open = report.findings.filter(isOpen).sort(before);
  const ofPlan = planHazards(boat, report.takeoff);
  const hazards = HAZARDS.filter(
    (hazard: Hazard) => ofPlan.has(hazard) || open.some((finding) => finding.hazards.includes(hazard)),
  );
  return [
    heading(`Open findings: ${open.length === 0 ? 'none' : open.length}`, width, context.lettering),
    ...open.map((finding, i): Block => {
      const { title, measured, why, enterNext } = findingText(finding, boat);
      const room = width - MARK_ROOM_MM;
      const first = wrapped(
        measured === '' ? title : `${title}: ${measured}`,
        room,
        context.lettering,
        TEXT.body,
        'strong',
      );
      const old = finding.cause === 'existing' ? 'Was there before. ' : '';
      const more = wrapped(`${old}${why} ${enterNext === '' ? '' : `${enterNext}.`}`.trim(), room, context.lettering);
      return {
        heightMm: (first.length + more.length) * LEADING_MM + 2.4,
        draw: ([x, y]) => [
          ...findingMark([x + 3, y + 3.4], markOfFinding(finding) ?? 'pass', i + 1),
          ...first.map(
            (words, k): Mark => text(words, [x + MARK_ROOM_MM, y + (k + 1) * LEADING_MM], { face: 'strong' }),
          ),
          ...more.map(
            (words, k): Mark =>
              text(words, [x + MARK_ROOM_MM, y + (first.length + k + 1) * LEADING_MM], { ink: 'second' }),
          ),
        ],
      };
    }),
    ...(hazards.length === 0 ? [] : [heading('Beware', width, context.lettering)]),
    ...cautionTexts(hazards).map((words) => paragraph(words, width, context.lettering)),
  ];
}

function reckonedWith(boat: Boat, report: GeneralInput['report'], width: number, context: PrintContext): Block[] {
  return [
    heading('What this reckons with', width, context.lettering),
    ...assumptionTexts(boat, arrangementText(boat, report.arrangement), (metres) => lengthWords(metres, context)).map(
      (words) => paragraph(words, width, context.lettering),
    ),
  ];
}
