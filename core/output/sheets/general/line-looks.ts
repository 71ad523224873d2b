import type { Vec2 } from '../../../base/vec';
import { beside } from '../../views/curves';
import type { Primitive, Role } from '../../views/drawing';
import { RUN_LETTER, type RunStyle } from '../../views/runs';
import { area, circle, DASH, type Ink, line, type Mark, outline, WIDTH } from '../marks';

/** How lines look on paper: weights and dashes by what they are, as on the board. Areas of things are white, so that they cover. */
const LOOKS: Readonly<Partial<Record<Role, { readonly widthMm: number; readonly ink?: Ink; readonly fill?: Ink }>>> = {
  hullOutline: { widthMm: WIDTH.outline },
  sheer: { widthMm: WIDTH.wall },
  innerSkin: { widthMm: WIDTH.hair, ink: 'second' },
  poche: { widthMm: 0, fill: 'ink' },
  panelCut: { widthMm: 0, fill: 'second' },
  compartment: { widthMm: WIDTH.hair, ink: 'second' },
  compartmentCut: { widthMm: WIDTH.hair, ink: 'second' },
  fixture: { widthMm: WIDTH.joinery, ink: 'second', fill: 'paper' },
  joinery: { widthMm: WIDTH.hair, ink: 'second', fill: 'paper' },
  part: { widthMm: WIDTH.wall, fill: 'paper' },
  symbol: { widthMm: WIDTH.dimension },
  symbolThin: { widthMm: WIDTH.hair },
  symbolPlus: { widthMm: WIDTH.dimension },
  symbolSolid: { widthMm: 0, fill: 'ink' },
};

/** Marks of line work, each point put onto the paper by `at`. What has no look on paper is left out. */
export function marksOf(primitives: readonly Primitive[], at: (point: Vec2) => Vec2, lighter = false): Mark[] {
  return primitives.flatMap((primitive): Mark[] => {
    const look = LOOKS[primitive.role];
    if (!look) return [];
    const { widthMm, fill } = look;
    const ink = lighter ? ('second' as const) : look.ink;
    const rings = primitive.kind === 'area' ? primitive.rings : [primitive.points];
    const onPaper = rings.map((ring) => ring.map(at));
    const closed = primitive.kind === 'area' || primitive.closed;
    return [
      ...(fill ? [area(onPaper, fill)] : []),
      ...(widthMm > 0
        ? onPaper.map((points) => (closed ? outline : line)(points, { widthMm, ...(ink ? { ink } : {}) }))
        : []),
    ];
  });
}

const RUN_DASH: Readonly<Partial<Record<RunStyle, readonly number[]>>> = {
  brine: [3.4, 1.2, 0.6, 1.2],
  fresh: [4.6, 1],
  signal: DASH.dots,
  gauge: DASH.dots,
  other: DASH.hidden,
};

/** Ink of a run; it tells nothing that letters and dashes do not. */
export const inkOfRun = (style: RunStyle): Ink =>
  style === 'fresh' ? 'fresh' : style === 'sea' || style === 'brine' || style === 'pressure' ? 'sea' : 'ink';

/** `R2 S`: what names a run, with the letter of what flows where there is one. */
export const runWords = (tag: string, style: RunStyle): string => [tag, RUN_LETTER[style] ?? ''].join(' ').trim();

const CASING_MM = 0.5;
const DC_APART_MM = 0.42;

/** A piece of a run on paper: told from others by dash and weight, so that grey will do. */
export function runMarks(points: readonly Vec2[], style: RunStyle): Mark[] {
  const ink = inkOfRun(style);
  switch (style) {
    case 'pressure':
      return [
        line(points, { widthMm: 2 * WIDTH.outline + CASING_MM, ink }),
        line(points, { widthMm: CASING_MM + 0.15, ink: 'paper' }),
      ];
    case 'dc': {
      const minus = beside(points, -DC_APART_MM);
      return [
        line(beside(points, DC_APART_MM), { widthMm: WIDTH.wall }),
        line(minus, { widthMm: 0.6 }),
        line(minus, { widthMm: 0.28, ink: 'paper' }),
      ];
    }
    default: {
      const dashMm = RUN_DASH[style] ?? [];
      const isThin = style === 'signal' || style === 'gauge' || style === 'other';
      return [line(points, { widthMm: isThin ? WIDTH.wall : WIDTH.outline, dashMm, ink })];
    }
  }
}

/** A line that found no way: dots, and a cross where it stops. */
export function missingMarks(points: readonly Vec2[], stopsAt: Vec2 | null): Mark[] {
  const cross = (x: number, y: number): Mark[] =>
    [1, -1].map((way) =>
      line(
        [
          [x - 1.4, y - 1.4 * way],
          [x + 1.4, y + 1.4 * way],
        ],
        { widthMm: WIDTH.wall, ink: 'bad' },
      ),
    );
  return [
    line(points, { widthMm: WIDTH.wall, dashMm: DASH.dots, ink: 'bad' }),
    ...(stopsAt ? cross(stopsAt[0], stopsAt[1]) : []),
  ];
}

/** A hole to be drilled: a ring on the run. */
export const holeMark = (at: Vec2): Mark[] => [
  area([circle(at, 0.8)], 'paper'),
  outline(circle(at, 0.8), { widthMm: WIDTH.dimension, dashMm: [0.6, 0.4] }),
];
