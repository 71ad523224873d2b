import { inflateSync } from 'node:zlib';

/** Reads back what a PDF really draws: paths and words of each page with every transformation applied, in millimetres, y down. */

type Point = readonly [number, number];
export interface DrawnPath {
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly how: 'stroke' | 'fill';
  readonly widthMm: number;
  readonly dashed: boolean;
}
export interface DrawnWords {
  readonly at: Point;
  /** Size of the em. */
  readonly emMm: number;
}
export interface DrawnPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly paths: readonly DrawnPath[];
  readonly words: readonly DrawnWords[];
}

const MM_PER_POINT = 25.4 / 72;
type Matrix = readonly [number, number, number, number, number, number];
const product = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[1] * n[2],
  m[0] * n[1] + m[1] * n[3],
  m[2] * n[0] + m[3] * n[2],
  m[2] * n[1] + m[3] * n[3],
  m[4] * n[0] + m[5] * n[2] + n[4],
  m[4] * n[1] + m[5] * n[3] + n[5],
];

export const rawText = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');

/** Every object of the file by number, as its text and, where it has one, its stream. */
function objectsOf(bytes: Uint8Array): Map<number, { readonly head: string; readonly stream: string | null }> {
  const text = rawText(bytes);
  const found = new Map<number, { head: string; stream: string | null }>();
  for (const match of text.matchAll(/(\d+) 0 obj\n([\s\S]*?)(?:stream\n|endobj)/g)) {
    const head = match[2] ?? '';
    const from = (match.index ?? 0) + match[0].length;
    const length = Number(/\/Length (\d+)/.exec(head)?.[1] ?? 0);
    const isStream = match[0].endsWith('stream\n');
    const packed = isStream ? Buffer.from(text.slice(from, from + length), 'latin1') : null;
    const stream = packed && (/FlateDecode/.test(head) ? inflateSync(packed) : packed).toString('latin1');
    found.set(Number(match[1]), { head, stream });
  }
  return found;
}

export function pagesOf(bytes: Uint8Array): DrawnPage[] {
  const objects = objectsOf(bytes);
  return [...objects.values()]
    .filter(({ head }) => /\/Type \/Page\b/.test(head))
    .map(({ head }) => {
      const box = /\/MediaBox \[([^\]]+)\]/.exec(head)?.[1]?.split(' ').map(Number) ?? [];
      const contents = Number(/\/Contents (\d+) 0 R/.exec(head)?.[1]);
      return drawn(objects.get(contents)?.stream ?? '', box[2] ?? 0, box[3] ?? 0);
    });
}

function drawn(stream: string, width: number, height: number): DrawnPage {
  const paths: DrawnPath[] = [];
  const words: DrawnWords[] = [];
  const place = (m: Matrix, x: number, y: number): Point => [
    (m[0] * x + m[2] * y + m[4]) * MM_PER_POINT,
    (height - (m[1] * x + m[3] * y + m[5])) * MM_PER_POINT,
  ];
  let state = { matrix: [1, 0, 0, 1, 0, 0] as Matrix, width: 1, dashed: false };
  const kept: (typeof state)[] = [];
  let open: { points: Point[]; closed: boolean }[] = [];
  let em = 0;
  const numbers: number[] = [];
  const paint = (how: 'stroke' | 'fill'): void => {
    for (const { points, closed } of open)
      paths.push({ points, closed, how, widthMm: state.width * MM_PER_POINT, dashed: state.dashed });
    open = [];
  };
  for (const [token] of stream.matchAll(/\[[^\]]*\]|<[^>]*>|\/\S+|[^\s]+/g)) {
    if (/^[+-]?[\d.]+$/.test(token)) {
      numbers.push(Number(token));
      continue;
    }
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers;
    switch (token) {
      case 'q':
        kept.push(state);
        break;
      case 'Q':
        state = kept.pop() ?? state;
        break;
      case 'cm':
        state = { ...state, matrix: product([a, b, c, d, e, f], state.matrix) };
        break;
      case 'w':
        state = { ...state, width: a };
        break;
      case 'm':
        open.push({ points: [place(state.matrix, a, b)], closed: false });
        break;
      case 'l':
        open.at(-1)?.points.push(place(state.matrix, a, b));
        break;
      case 're':
        open.push({
          points: [
            [a, b],
            [a + c, b],
            [a + c, b + d],
            [a, b + d],
          ].map(([x = 0, y = 0]) => place(state.matrix, x, y)),
          closed: true,
        });
        break;
      case 'h': {
        const last = open.at(-1);
        if (last) last.closed = true;
        break;
      }
      case 'S':
        paint('stroke');
        break;
      case 'f':
      case 'f*':
        paint('fill');
        break;
      case 'Tm':
        words.push({ at: place(state.matrix, e, f), emMm: 0 });
        break;
      case 'Tf':
        em = a * MM_PER_POINT * Math.hypot(state.matrix[0], state.matrix[1]);
        words[words.length - 1] = { at: words.at(-1)?.at ?? [0, 0], emMm: em };
        break;
      case 'c':
      case 'Do':
        throw new Error(`pagesOf: expected straight lines and words, got ${token}`);
      default:
        // `d` follows its list; everything else (colours, joins, words themselves) draws nothing by itself.
        if (token.startsWith('[')) {
          state = { ...state, dashed: token !== '[]' && !token.includes('<') ? true : state.dashed };
          if (token === '[]') state = { ...state, dashed: false };
          continue;
        }
    }
    numbers.length = 0;
  }
  return { widthMm: width * MM_PER_POINT, heightMm: height * MM_PER_POINT, paths, words };
}
