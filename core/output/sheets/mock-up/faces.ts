import * as portable from '../../../base/portable';
import { dot, norm, ORIGIN, type Pose, unit, type Vec2, type Vec3 } from '../../../base/vec';
import type { Port, Service, Thing } from '../../../boat/schema/boat';
import { serviceFace, servicesWithRoom } from '../../../shape/space/things';
import { taskText } from '../../text/schema-words';
import { intersectionOf } from '../../views/polygons';
import { LETTERS } from '../letters';
import { arrow, circle, DASH, type Lettering, line, type Mark, outline, TEXT, text, WIDTH, wrapped } from '../marks';
import { onOneTile, type Tiling } from '../tiles';
import type { Net, NetFace, Way } from './net';

/** What stands on the faces of a net: ports by letter, room for service, which way each face looks. */

export interface PortMark {
  readonly letter: string;
  readonly id: string;
  readonly port: Port;
  readonly face: NetFace;
  /** Where it is on the net. */
  readonly at: Vec2;
  /** Out of the face, metres: negative inside the envelope. */
  readonly offM: number;
  /** Between the port's direction and straight out of the face, degrees. */
  readonly slantDeg: number;
}

export interface ServiceMark {
  readonly number: number;
  readonly service: Service;
  readonly face: NetFace;
  readonly rings: readonly (readonly Vec2[])[];
}

const WAY_WORDS: Readonly<Record<NetFace['way'], string>> = {
  '+x': 'Forward end',
  '-x': 'Aft end',
  '+y': 'Port side',
  '-y': 'Starboard side',
  '+z': 'Top',
  '-z': 'Bottom',
  round: 'Round the side',
};
export const faceWords = ({ way }: Pick<NetFace, 'way'>): string => WAY_WORDS[way];

const letterOf = (index: number): string => {
  const letter = LETTERS[index % LETTERS.length] ?? 'A';
  return index < LETTERS.length ? letter : `${letter}${Math.floor(index / LETTERS.length) + 1}`;
};

const AT_REST: Pose = { at: ORIGIN, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
/** Faces as near as this to a port are told apart by its direction, metres. */
const SAME_M = 0.002;

export function portMarks(part: Pick<Thing, 'ports'>, net: Net): PortMark[] {
  return Object.entries(part.ports).map(([id, port], index) => {
    const way = unit(port.direction);
    const face = nearestFace(net, port.at, way);
    const { offM, normal } = face.near(port.at);
    return {
      letter: letterOf(index),
      id,
      port,
      face,
      at: within(face, face.place(port.at)),
      offM,
      slantDeg: (portable.acos(Math.min(1, Math.max(-1, dot(way, normal)))) * 180) / Math.PI,
    };
  });
}

function nearestFace(net: Net, at: Vec3, way: Vec3): NetFace {
  const cost = (face: NetFace): number => {
    const { distanceM, normal } = face.near(at);
    return distanceM - SAME_M * dot(way, normal);
  };
  return net.faces.reduce((best, face) => (cost(face) < cost(best) ? face : best));
}

const within = ({ room: { low, high }, way, outline: ring }: NetFace, [x, y]: Vec2): Vec2 => {
  // A disc's room for words is smaller than the disc: only its own outline bounds a port there.
  const xs = ring.map((p) => p[0]);
  const ys = ring.map((p) => p[1]);
  const box =
    way === 'round'
      ? { low, high }
      : { low: [Math.min(...xs), Math.min(...ys)], high: [Math.max(...xs), Math.max(...ys)] };
  const clamp = (value: number, axis: 0 | 1): number =>
    Math.min(Math.max(value, box.low[axis] ?? value), box.high[axis] ?? value);
  return [clamp(x, 0), clamp(y, 1)];
};

export function serviceMarks(part: Pick<Thing, 'services'>, net: Net): ServiceMark[] {
  return Object.values(servicesWithRoom(part)).map((service, index) => {
    const pushed = serviceFace(service, AT_REST);
    const face = net.faces.reduce((best, other) =>
      facing(other, pushed.at, pushed.direction) > facing(best, pushed.at, pushed.direction) ? other : best,
    );
    const centre = face.place(pushed.at);
    const wide = face.turn(pushed.across, pushed.at);
    const [width, height] = [pushed.sizeM[0] * 500, pushed.sizeM[1] * 500];
    const length = portable.hypot(wide[0], wide[1]) || 1;
    const e: Vec2 = [wide[0] / length, wide[1] / length];
    const f: Vec2 = [-e[1], e[0]];
    const corner = (i: number, j: number): Vec2 => [
      centre[0] + e[0] * width * i + f[0] * height * j,
      centre[1] + e[1] * width * i + f[1] * height * j,
    ];
    const ring = pushed.round ? circle(centre, width) : [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
    return { number: index + 1, service, face, rings: intersectionOf([ring], [face.outline]) };
  });
}

/** How much a face looks the way that a task comes in; near faces before far ones. */
function facing(face: NetFace, at: Vec3, direction: Vec3): number {
  const { normal, distanceM } = face.near(at);
  return dot(normal, direction) - distanceM;
}

const RING_LEAST_MM = 2.5;
const HAIR_MM = 9;
const ARROW_MM = 16;
/** A port that leaves nearly square to its face needs no arrow, degrees. */
const STRAIGHT_DEG = 5;

/** A port: its bore, hair lines through the centre, its letter; an arrow where it leaves at a slant. */
export function drawPort({ letter, port, face, at, slantDeg }: PortMark): Mark[] {
  const [x, y] = at;
  const radius = Math.max(RING_LEAST_MM, (port.boreM ?? 0) * 500);
  const marks: Mark[] = [
    outline(circle(at, radius), { widthMm: WIDTH.outline }),
    line(
      [
        [x - radius - HAIR_MM / 2, y],
        [x + radius + HAIR_MM / 2, y],
      ],
      { widthMm: WIDTH.hair },
    ),
    line(
      [
        [x, y - radius - HAIR_MM / 2],
        [x, y + radius + HAIR_MM / 2],
      ],
      { widthMm: WIDTH.hair },
    ),
    text(letter, [x + radius + 1.5, y - radius - 0.5], { sizeMm: TEXT.heading, face: 'strong', boxed: true }),
  ];
  if (slantDeg > STRAIGHT_DEG) {
    const flat = face.turn(unit(port.direction), port.at);
    const length = portable.hypot(flat[0], flat[1]);
    if (length > 1e-6) marks.push(...arrow(at, [flat[0] / length, flat[1] / length], radius + ARROW_MM));
  }
  return marks;
}

/** The room of a task where it meets the face, its number at the lower edge; `index` parts tasks that share an outline. */
export function drawService({ rings, number }: ServiceMark, index: number): Mark[] {
  return rings.flatMap((ring) => [
    outline(ring, { widthMm: WIDTH.joinery, dashMm: DASH.hidden, ink: 'accent' }),
    text(
      String(number),
      [
        (Math.min(...ring.map((p) => p[0])) + Math.max(...ring.map((p) => p[0]))) / 2 + index * NUMBER_STEP_MM,
        Math.max(...ring.map((p) => p[1])) - 2,
      ],
      { anchor: 'middle', sizeMm: TEXT.heading, face: 'strong', ink: 'accent', boxed: true },
    ),
  ]);
}
const NUMBER_STEP_MM = 6;

export interface FaceWords {
  readonly face: NetFace;
  readonly rows: readonly { readonly words: string; readonly strong: boolean }[];
}

const LEADING = 1.75;
const STEP_MM = 4;
const MARGIN_MM = 3;
const WIDEST_MM = 74;

/** Words of a face in a block, where they hide no port and, if it can be, cross no seam. */
export function placeWords(
  { face, rows }: FaceWords,
  ports: readonly PortMark[],
  tiling: Tiling,
  lettering: Lettering,
): Mark[] {
  const { low, high } = face.room;
  const room = Math.min(WIDEST_MM, high[0] - low[0] - 2 * MARGIN_MM);
  if (room < 8) return [];
  const leading = TEXT.body * LEADING;
  const taken = ports.filter((mark) => mark.face === face).map(portBox);
  // On a face with too little room the heading and the first rows stay; the key sheet has the rest.
  for (let count = rows.length; count > 0; count--) {
    const kept = rows
      .slice(0, count)
      .flatMap(({ words, strong }) =>
        wrapped(words, room, lettering, TEXT.body, strong ? 'strong' : 'plain').map((row) => ({ row, strong })),
      );
    const width = Math.max(
      ...kept.map(({ row, strong }) => lettering.width(row, TEXT.body, strong ? 'strong' : 'plain')),
    );
    const found = quietPlace(face, [width, kept.length * leading], taken, tiling);
    if (!found) continue;
    return kept.map(({ row, strong }, i) =>
      text(row, [found[0], found[1] + TEXT.body + i * leading], { face: strong ? 'strong' : 'plain', boxed: true }),
    );
  }
  return [];
}

/** Words keep so far from the edge of their tile, clear of seam and crosses, millimetres. */
const SEAM_MM = 10;
/** Where a face is too small for that, at least so far. */
const LEAST_CLEAR_MM = 2;
/** Each more than any place on the face can cost. */
const CLOSE_COST = 2;
const SPLIT_COST = 4;

/** Upper left corner of a block that hides no port; one that crosses no seam goes before those nearer to the corner. */
function quietPlace(
  { room: { low, high } }: NetFace,
  [width, height]: Vec2,
  taken: readonly (readonly [Vec2, Vec2])[],
  tiling: Tiling,
): Vec2 | null {
  let best: { readonly at: Vec2; readonly cost: number } | null = null;
  for (let y = low[1] + MARGIN_MM; y <= high[1] - height - MARGIN_MM; y += STEP_MM)
    for (let x = low[0] + MARGIN_MM; x <= high[0] - width - MARGIN_MM; x += STEP_MM) {
      if (taken.some((box) => overlap(box, [x, y], [x + width, y + height]))) continue;
      const clear = (by: number): boolean => onOneTile(tiling, [x - by, y - by], [x + width + by, y + height + by]);
      const corner = (y - low[1] + (x - low[0]) / 3) / (high[1] - low[1] + high[0] - low[0]);
      const cost = (clear(SEAM_MM) ? 0 : clear(LEAST_CLEAR_MM) ? CLOSE_COST : SPLIT_COST) + corner;
      if (!best || cost < best.cost) best = { at: [x, y], cost };
    }
  return best?.at ?? null;
}

const portBox = ({ at, port }: PortMark): readonly [Vec2, Vec2] => {
  const reach = Math.max(RING_LEAST_MM, (port.boreM ?? 0) * 500) + 6;
  return [
    [at[0] - reach, at[1] - reach],
    [at[0] + reach + 4, at[1] + reach],
  ];
};
const overlap = ([low, high]: readonly [Vec2, Vec2], from: Vec2, to: Vec2): boolean =>
  low[0] < to[0] && high[0] > from[0] && low[1] < to[1] && high[1] > from[1];

export const serviceWords = (service: Service): string => service.name ?? taskText(service.task);

const COMPASS: readonly (readonly [Way, string])[] = [
  ['+x', 'forward'],
  ['-x', 'aft'],
  ['+y', 'to port'],
  ['-y', 'to starboard'],
  ['+z', 'up'],
  ['-z', 'down'],
];
/** The way of a direction in a word where it is one of six, else its nearest two. */
export function directionWords(direction: Vec3): string {
  const d = direction.map((value) => value / norm(direction));
  const parts = COMPASS.filter(([way]) => {
    const axis = 'xyz'.indexOf(way.charAt(1));
    const value = d[axis] ?? 0;
    return (way.startsWith('+') ? value : -value) > 0.15;
  });
  return parts.map(([, words]) => words).join(' and ');
}
