import type { Vec2 } from '../../../base/vec';
import type { Boat } from '../../../boat/schema/boat';
import type { HullSurface } from '../../../shape/hull/types';
import { lengthFigure, type PrintContext } from '../context';
import { type Block, flowSheets, flowWidth } from '../flow';
import { type FormRow, formRows, gradeLegend, heading, notesRows, paragraph } from '../form';
import { LETTERS } from '../letters';
import { line, type Sheet, TEXT, text, WIDTH } from '../marks';
import { balloon } from './sketch';

interface FloatPoint {
  readonly words: string;
  readonly at: Vec2;
  readonly nowM: number | null;
  readonly why?: string;
}

/** A sheet to take freeboards and level marks by: how the boat really floats goes before anything that is computed. */
export function floatingSheets(boat: Boat, hull: HullSurface | null, context: PrintContext): Sheet[] {
  const width = flowWidth(context);
  const points = hull ? floatPoints(boat, hull) : [];
  const lettered = points.map((point, i) => ({ ...point, letter: LETTERS.charAt(i) }));
  const rows = lettered.map(
    ({ letter, words, nowM, why }): FormRow => ({
      letter,
      words,
      now: nowM === null ? '' : lengthFigure(Math.round(nowM * 1000) / 1000, context),
      ...(why === undefined ? {} : { why }),
    }),
  );
  const blocks: Block[] = [
    heading('How the boat floats', width, context.lettering, TEXT.title),
    paragraph(
      'In calm water, alongside or at anchor, in cruising trim: usual stores, water and fuel, nobody leaning over. Hang the tape from the deck edge, plumb, down to the water. From a dinghy a level mark will do: tape stuck on the skin just at the water.',
      width,
      context.lettering,
    ),
    paragraph('Wear a life jacket in the dinghy. Do not lean out between boat and quay.', width, context.lettering),
    paragraph(gradeLegend(boat, context), width, context.lettering),
    ...(hull ? [outlineBlock(hull, lettered, width)] : []),
    heading('Freeboards: deck edge to water', width, context.lettering),
    ...formRows(rows, width, context),
    heading('Level marks: points just at the water', width, context.lettering),
    ...formRows(
      ['Bow, on the stem', 'Port side, half way', 'Starboard side, half way', 'Transom, on the centreline'].map(
        (words, i): FormRow => ({ letter: String(i + 1), words: `${words}: below the deck edge there`, now: '' }),
      ),
      width,
      context,
    ),
    heading('With them', width, context.lettering),
    notesRows(
      ['Salt or fresh water, tanks in litres, people and where:', 'Ten rolls at the berth, lines slack, seconds:'],
      width,
      context.lettering,
    ),
  ];
  return flowSheets(
    blocks,
    { sheet: 'Survey', subject: 'How the boat floats', measured: 'to be measured', scale: 'sketch' },
    context,
  );
}

/** Freeboards that the boat file has, else four at the ends and amidships: three fix the water plane, the fourth checks them. */
function floatPoints(boat: Boat, hull: HullSurface): FloatPoint[] {
  const taken = Object.entries(boat.reference.freeboards).map(
    ([id, { at, freeboardM }]): FloatPoint => ({
      words: `${id}: ${sideWords(at[1])}, ${at[0].toFixed(2)} m forward of the aftmost point`,
      at: [at[0], at[1]],
      nowM: freeboardM,
    }),
  );
  if (taken.length >= 3) return taken;
  const middle = (hull.aftM + hull.forwardM) / 2;
  const beam = Math.max(...hull.sectionAt(middle).map(([y]) => Math.abs(y)));
  const quarter = hull.aftM + (hull.forwardM - hull.aftM) * 0.1;
  const quarterBeam = Math.max(0, ...hull.sectionAt(quarter).map(([y]) => Math.abs(y)));
  return [
    ...taken,
    hull.offsetM === 0
      ? { words: 'Stem head, on the centreline', at: [hull.forwardM, 0], nowM: null }
      : { words: 'Stem head of one hull: note which', at: [hull.forwardM, hull.offsetM], nowM: null },
    { words: 'Amidships, port: note how far from the stem head', at: [middle, beam], nowM: null },
    {
      words: 'Amidships, starboard, opposite',
      at: [middle, -beam],
      nowM: null,
      why: 'with port it gives the list.',
    },
    { words: 'Port quarter', at: [quarter, quarterBeam], nowM: null },
    {
      words: 'Starboard quarter',
      at: [quarter, -quarterBeam],
      nowM: null,
      why: 'three points fix the water plane; the others find the one that is misread.',
    },
  ];
}

const sideWords = (y: number): string => (Math.abs(y) < 0.02 ? 'centreline' : y > 0 ? 'port' : 'starboard');

const OUTLINE_SAMPLES = 40;
const TALLEST_MM = 26;

/** The deck edge from above with the lettered points on it. */
function outlineBlock(
  hull: HullSurface,
  points: readonly (FloatPoint & { readonly letter: string })[],
  widthMm: number,
): Block {
  const stations = Array.from({ length: OUTLINE_SAMPLES + 1 }, (_, i) => {
    const x = hull.aftM + ((hull.forwardM - hull.aftM) * i) / OUTLINE_SAMPLES;
    const edge = hull.sectionAt(x);
    return { x, half: Math.max(0, ...edge.map(([y]) => Math.abs(y))) };
  });
  const beam = Math.max(...stations.map(({ half }) => half)) * 2;
  const perMetre = Math.min((widthMm - 24) / (hull.forwardM - hull.aftM), TALLEST_MM / beam);
  const height = beam * perMetre + 12;
  return {
    heightMm: height,
    draw: ([x0, y0]) => {
      const place = ([x, y]: Vec2): Vec2 => [x0 + 10 + (x - hull.aftM) * perMetre, y0 + 6 + (beam / 2 - y) * perMetre];
      const side = (sign: number): Vec2[] => stations.map(({ x, half }) => place([x, sign * half]));
      const [aft, forward] = [place([hull.aftM, 0]), place([hull.forwardM, 0])];
      return [
        line(side(1), { widthMm: WIDTH.outline }),
        line(side(-1), { widthMm: WIDTH.outline }),
        line([side(1)[0] ?? aft, side(-1)[0] ?? aft], { widthMm: WIDTH.outline }),
        line([aft, forward], { widthMm: WIDTH.hair, dashMm: [8, 1.6, 1.2, 1.6] }),
        text('aft', [aft[0] - 2, aft[1] - 1.5], { anchor: 'end', ink: 'second' }),
        ...points.flatMap(({ at, letter }) => balloon(place(at), letter)),
      ];
    },
  };
}
