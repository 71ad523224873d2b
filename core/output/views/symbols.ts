import * as portable from '../../base/portable';
import type { Axis, Vec2, Vec3 } from '../../base/vec';
import { halfOf } from '../../boat/catalogue/face-places';
import type { Thing } from '../../boat/schema/boat';
import { axisIndex } from './envelope';

/**
 * One or two strokes that tell a thing by its kind, drawn on the face of its envelope that looks at the eye.
 * Coordinates are metres on that face: right along the first of its two axes, up along the second.
 */
export interface SymbolStroke {
  readonly role: 'symbol' | 'symbolThin' | 'symbolPlus' | 'symbolSolid';
  readonly points: readonly Vec2[];
  readonly closed: boolean;
}
export interface FaceSymbol {
  /** Outline inside the envelope, where the body is not the envelope itself: a bowl under its head. */
  readonly outline: readonly Vec2[] | null;
  readonly strokes: readonly SymbolStroke[];
}

/** The two axes of the face across axis k, in the order in which its symbol is laid out. */
export const FACE_AXES: Readonly<Record<Axis, readonly [Axis, Axis]>> = { 0: [1, 2], 1: [0, 2], 2: [0, 1] };

const NOTHING: FaceSymbol = { outline: null, strokes: [] };

const line = (role: SymbolStroke['role'], ...points: Vec2[]): SymbolStroke => ({ role, points, closed: false });
const ring = (role: SymbolStroke['role'], points: readonly Vec2[]): SymbolStroke => ({ role, points, closed: true });
const ellipse = (u: number, v: number, ru: number, rv = ru, from = 0, to = 360): Vec2[] => {
  const steps = 36;
  const full = to - from >= 360;
  return Array.from({ length: full ? steps : steps + 1 }, (_, i) => {
    const t = ((from + ((to - from) * i) / steps) * Math.PI) / 180;
    return [u + ru * portable.cos(t), v + rv * portable.sin(t)];
  });
};
const rectangle = (u0: number, v0: number, u1: number, v1: number): Vec2[] => [
  [u0, v0],
  [u1, v0],
  [u1, v1],
  [u0, v1],
];

interface Face {
  readonly a: number;
  readonly b: number;
  /** The face looks along the length or up axis of the thing: its end is seen. */
  readonly end: boolean;
  /** True where the first paper axis of the face is the long one. */
  readonly long: boolean;
}

/** Symbol of a thing on the face across local axis k. */
export function faceSymbol(thing: Pick<Thing, 'kind' | 'shape'>, k: Axis): FaceSymbol {
  const half = halfOf(thing.shape);
  const [first, second] = FACE_AXES[k];
  const a = half[first];
  const b = half[second];
  const length = lengthAxis(thing, half);
  return draw(thing.kind, { a, b, end: length === k, long: length === first }, k);
}

/** Bowls and seacocks stand on z; tubes and modules lie along their longest side. */
function lengthAxis(thing: Pick<Thing, 'kind' | 'shape'>, half: Vec3): Axis {
  if (thing.shape.type === 'cylinder') return axisIndex(thing.shape.axis);
  if (UPRIGHT.has(thing.kind)) return 2;
  return half[0] >= half[1] && half[0] >= half[2] ? 0 : half[1] >= half[2] ? 1 : 2;
}

const UPRIGHT = new Set<Thing['kind']>([
  'strainer',
  'filter',
  'carbonFilter',
  'seacock',
  'tap',
  'compass',
  'mastStep',
  'sink',
  'head',
]);

function draw(kind: Thing['kind'], face: Face, k: Axis): FaceSymbol {
  const { a, b } = face;
  const least = Math.min(a, b);
  switch (kind) {
    case 'strainer':
    case 'filter':
    case 'carbonFilter':
      return bowl(face, kind);
    case 'seacock':
      return {
        outline: null,
        strokes: face.end
          ? [ring('symbol', ellipse(0, 0, least * 0.55))]
          : [...bowTie(0, b * 0.1, least * 0.55), line('symbol', [-a, -b * 0.72], [a, -b * 0.72])],
      };
    case 'skinFitting':
    case 'logFitting':
      return {
        outline: null,
        strokes: face.end
          ? [ring('symbol', ellipse(0, 0, least * 0.5))]
          : [line('symbol', [-a, -b * 0.5], [a, -b * 0.5])],
      };
    case 'serviceValve':
    case 'flushValve':
      return { outline: null, strokes: bowTie(0, 0, Math.min(a * 0.72, b * 0.95)) };
    case 'diverter': {
      const s = least * 0.7;
      return {
        outline: null,
        strokes: [
          ...bowTie(0, 0, s),
          ring('symbol', [
            [0, 0],
            [-s * 0.55, -s],
            [s * 0.55, -s],
          ]),
        ],
      };
    }
    case 'tee':
      return { outline: null, strokes: [line('symbol', [-a, 0], [a, 0]), line('symbol', [0, 0], [0, b])] };
    case 'ventedLoop':
      return {
        outline: null,
        strokes: [
          line('symbol', [-a * 0.55, -b], ...ellipse(0, b * 0.2, a * 0.55, b * 0.55, 0, 180).reverse(), [a * 0.55, -b]),
        ],
      };
    case 'pumpModule':
      return pumpModule(face, k);
    case 'feedPump':
    case 'freshPump':
    case 'deckWashPump':
    case 'bilgePump':
      return pump(face);
    case 'membrane':
      return tube(face);
    case 'exhaust':
      return face.end ? { outline: null, strokes: [ring('symbolThin', ellipse(0, 0, least * 0.7))] } : NOTHING;
    case 'fuelTank':
    case 'waterTank':
    case 'holdingTank':
      return { outline: null, strokes: [line('symbolThin', [-a, -b], [a, b]), line('symbolThin', [-a, b], [a, -b])] };
    case 'battery':
      return battery(face);
    case 'waterHeater':
      return {
        outline: null,
        strokes: face.end
          ? [ring('symbolThin', ellipse(0, 0, least * 0.62))]
          : [
              line(
                'symbolThin',
                ...Array.from({ length: 9 }, (_, i): Vec2 => [a * (-0.6 + 0.15 * i), (i % 2 ? 0.35 : -0.35) * b]),
              ),
            ],
      };
    case 'waterLock':
      return { outline: null, strokes: [line('symbolThin', [-a, -b * 0.1], [a, -b * 0.1])] };
    case 'engine':
      return engine(face);
    case 'stuffingBox':
      return { outline: null, strokes: [line('symbolThin', [-a, 0], [a, 0])] };
    case 'controlStation':
    case 'dcPanel':
    case 'inverterCharger':
      return {
        outline: null,
        strokes: [
          ring('symbolThin', rectangle(-a + least * 0.24, -b + least * 0.24, a - least * 0.24, b - least * 0.24)),
        ],
      };
    case 'breaker':
      return {
        outline: null,
        strokes: [
          line('symbol', [-least * 0.5, 0], [least * 0.1, least * 0.55]),
          line('symbol', [least * 0.3, 0], [least * 0.75, 0]),
        ],
      };
    case 'fuse':
      return {
        outline: null,
        strokes: face.long || face.end ? [line('symbol', [-a, 0], [a, 0])] : [line('symbol', [0, -b], [0, b])],
      };
    case 'busbar':
      return {
        outline: null,
        strokes: threeRings('symbol', face, least * 0.3),
      };
    case 'bulkheadUnion':
      return {
        outline: null,
        strokes: [line('symbol', [-a * 0.25, -b], [-a * 0.25, b]), line('symbol', [a * 0.25, -b], [a * 0.25, b])],
      };
    case 'tap':
      return face.end
        ? { outline: null, strokes: [ring('symbol', ellipse(0, 0, least * 0.5))] }
        : {
            outline: null,
            strokes: [
              line('symbol', [0, -b], [0, b * 0.3], ...ellipse(a * 0.4, b * 0.3, a * 0.4, b * 0.5, 0, 180).reverse(), [
                a * 0.8,
                b * 0.05,
              ]),
            ],
          };
    case 'sink':
      return {
        outline: null,
        strokes: face.end
          ? [
              ring('symbolThin', rounded(a * 0.84, b * 0.84, least * 0.3)),
              ring('symbolThin', ellipse(0, 0, least * 0.1)),
            ]
          : [line('symbolThin', [-a * 0.84, b], [-a * 0.7, -b], [a * 0.7, -b], [a * 0.84, b])],
      };
    case 'head':
      return {
        outline: null,
        strokes: face.end
          ? [ring('symbolThin', ellipse(a * 0.2, 0, a * 0.66, b * 0.78))]
          : [line('symbolThin', [-a, b * 0.35], [a, b * 0.35])],
      };
    case 'compass':
      return {
        outline: null,
        strokes: [ring('symbol', ellipse(0, 0, least * 0.8)), line('symbol', [0, -least * 0.55], [0, least * 0.55])],
      };
    case 'gasLocker':
      return {
        outline: null,
        strokes: [
          ring('symbolThin', ellipse(-a * 0.45, 0, Math.min(a * 0.42, b * 0.8))),
          ring('symbolThin', ellipse(a * 0.45, 0, Math.min(a * 0.42, b * 0.8))),
        ],
      };
    case 'fridge':
      return {
        outline: null,
        strokes: [0, 60, 120].map((d) => {
          const t = (d * Math.PI) / 180;
          const r = least * 0.4;
          return line(
            'symbolThin',
            [-r * portable.cos(t), -r * portable.sin(t)],
            [r * portable.cos(t), r * portable.sin(t)],
          );
        }),
      };
    case 'sparesBox':
      return face.end ? NOTHING : { outline: null, strokes: [line('symbolThin', [-a, b * 0.55], [a, b * 0.55])] };
    case 'mastStep':
      return face.end
        ? {
            outline: null,
            strokes: [
              ring('symbol', ellipse(0, 0, least * 0.6)),
              line('symbolThin', [-a, 0], [a, 0]),
              line('symbolThin', [0, -b], [0, b]),
            ],
          }
        : NOTHING;
    case 'keelBolts':
      return face.end || k === 2
        ? {
            outline: null,
            strokes: threeRings('symbolThin', face, least * 0.4),
          }
        : NOTHING;
    case 'steering':
      return { outline: null, strokes: [ring('symbolThin', ellipse(0, 0, least * 0.35))] };
    case 'autopilotDrive':
      return {
        outline: null,
        strokes:
          a >= b
            ? [line('symbolThin', [a * 0.2, -b], [a * 0.2, b]), line('symbolThin', [a * 0.2, 0], [a, 0])]
            : [line('symbolThin', [-a, b * 0.2], [a, b * 0.2]), line('symbolThin', [0, b * 0.2], [0, b])],
      };
    case 'emergencyTiller':
    case 'chainplate':
    case 'joinery':
    case 'other':
      return NOTHING;
    default: {
      const unknown: never = kind;
      throw new Error(`faceSymbol: no symbol decided for kind ${String(unknown)}`);
    }
  }
}

/** Bolt heads along the longer side. */
function threeRings(role: SymbolStroke['role'], { a, b }: Face, radius: number): SymbolStroke[] {
  const reach = 0.85 * (Math.max(a, b) - radius);
  return [-reach, 0, reach].map((t) => ring(role, a >= b ? ellipse(t, 0, radius) : ellipse(0, t, radius)));
}

function bowTie(u: number, v: number, s: number): SymbolStroke[] {
  const h = s * 0.6;
  return [
    ring('symbol', [
      [u - s, v - h],
      [u - s, v + h],
      [u + s, v - h],
      [u + s, v + h],
    ]),
  ];
}

/** From the side a head over a bowl with a round foot; from above the head and its boss. */
function bowl({ a, b, end }: Face, kind: Thing['kind']): FaceSymbol {
  if (end) return { outline: null, strokes: [ring('symbol', ellipse(0, 0, Math.min(a, b) * 0.55))] };
  const neck = b * 0.52;
  const body = a * 0.84;
  const foot = Math.min(body, b * 0.7);
  const outline: Vec2[] = [
    [a, b],
    [-a, b],
    [-a, neck],
    [-body, neck],
    [-body, -b + foot],
    ...ellipse(0, -b + foot, body, foot, 180, 360),
    [body, neck],
    [a, neck],
  ];
  const strokes: SymbolStroke[] = [line('symbol', [-a, neck], [a, neck])];
  // A strainer keeps a basket; a carbon filter a core; a sediment filter is the plain bowl.
  if (kind === 'strainer')
    strokes.push(
      line('symbolThin', [-body * 0.55, neck], [-body * 0.4, -b * 0.55], [body * 0.4, -b * 0.55], [body * 0.55, neck]),
    );
  if (kind === 'carbonFilter')
    strokes.push(
      line('symbolThin', [-body * 0.4, neck], [-body * 0.4, -b * 0.6]),
      line('symbolThin', [body * 0.4, neck], [body * 0.4, -b * 0.6]),
    );
  return { outline, strokes };
}

/** Motor circle at the after end of the module, three strokes for the pump head at the forward end. */
function pumpModule({ a, b }: Face, k: Axis): FaceSymbol {
  if (k === 0) return { outline: null, strokes: [ring('symbol', ellipse(0, 0, Math.min(a, b) * 0.62))] };
  const split = a * 0.22;
  const r = Math.min((a + split) / 2, b) * 0.72;
  const inner = split + (a - split) * 0.22;
  const outer = a - (a - split) * 0.22;
  return {
    outline: null,
    strokes: [
      ring('symbol', ellipse((-a + split) / 2, 0, r)),
      line('symbol', [split, -b], [split, b]),
      ...[-0.45, 0, 0.45].map((t) => line('symbol', [inner, t * b], [outer, t * b])),
    ],
  };
}

/** A circle with the arrow of its delivery. */
function pump({ a, b, long, end }: Face): FaceSymbol {
  const r = Math.min(a, b) * 0.72;
  const arrow: Vec2[] =
    long || end
      ? [
          [r, 0],
          [0, r],
          [0, -r],
        ]
      : [
          [0, r],
          [-r, 0],
          [r, 0],
        ];
  return { outline: null, strokes: [ring('symbol', ellipse(0, 0, r)), ring('symbolThin', arrow)] };
}

/** End caps and the edges of the element. */
function tube({ a, b, end, long }: Face): FaceSymbol {
  if (end) return { outline: null, strokes: [ring('symbol', ellipse(0, 0, Math.min(a, b) * 0.6))] };
  const [l, w] = long ? [a, b] : [b, a];
  const cap = Math.min(l * 0.12, w * 0.9);
  const at = (u: number, v: number): Vec2 => (long ? [u, v] : [v, u]);
  return {
    outline: null,
    strokes: [
      line('symbol', at(-l + cap, -w), at(-l + cap, w)),
      line('symbol', at(l - cap, -w), at(l - cap, w)),
      line('symbolThin', at(-l + cap, w * 0.45), at(l - cap, w * 0.45)),
      line('symbolThin', at(-l + cap, -w * 0.45), at(l - cap, -w * 0.45)),
    ],
  };
}

function battery({ a, b }: Face): FaceSymbol {
  const wide = a >= b;
  const at = (u: number, v: number): Vec2 => (wide ? [u, v] : [v, u]);
  const s = Math.min(a, b, Math.max(a, b) / 2) * 0.36;
  const half = (wide ? a : b) / 2;
  return {
    outline: null,
    strokes: [
      line('symbol', at(0, -(wide ? b : a)), at(0, wide ? b : a)),
      line('symbolPlus', at(-half - s, 0), at(-half + s, 0)),
      line('symbolPlus', at(-half, -s), at(-half, s)),
      line('symbolSolid', at(half - s, 0), at(half + s, 0)),
    ],
  };
}

/** Block on its bearers, with the flywheel at the after end. */
function engine({ a, b, end }: Face): FaceSymbol {
  if (end) return { outline: null, strokes: [ring('symbolThin', ellipse(0, -b * 0.15, Math.min(a, b) * 0.5))] };
  return {
    outline: [
      [-a, -b * 0.55],
      [-a * 0.62, -b * 0.55],
      [-a * 0.55, -b],
      [a * 0.7, -b],
      [a, -b * 0.5],
      [a, b * 0.55],
      [a * 0.78, b],
      [-a * 0.5, b],
      [-a * 0.6, b * 0.35],
      [-a, b * 0.2],
    ],
    strokes: [
      line('symbolThin', [-a, -b * 0.18], [a, -b * 0.18]),
      line('symbolThin', [-a * 0.5, b * 0.45], [a * 0.85, b * 0.45]),
    ],
  };
}

function rounded(a: number, b: number, r: number): Vec2[] {
  return [
    ...ellipse(a - r, b - r, r, r, 0, 90),
    ...ellipse(-a + r, b - r, r, r, 90, 180),
    ...ellipse(-a + r, -b + r, r, r, 180, 270),
    ...ellipse(a - r, -b + r, r, r, 270, 360),
  ];
}
