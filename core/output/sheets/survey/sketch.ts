import * as portable from '../../../base/portable';
import type { Vec2 } from '../../../base/vec';
import type { HullSurface } from '../../../shape/hull/types';
import type { Layout } from '../../../shape/layout/types';
import { type Cut, compartmentInCut, hullCut } from '../../views/cuts';
import { boundsOf as boundsOnPaper, PLAN, PROFILE, SECTION } from '../../views/drawing';
import { crossingsAt, type Ring } from '../../views/polygons';
import { arrow, circle, line, type Mark, outline, TEXT, text, WIDTH } from '../marks';
import { boundsOf } from './datums';

/** Three cuts through the middle of a compartment, in boat metres on paper axes: what stands free inside, hull and lining taken off. */
export interface Sketch {
  readonly profile: Ring;
  readonly plan: Ring;
  readonly section: Ring;
}

export function sketchOf(layout: Layout, id: string, hull: HullSurface | null): Sketch | null {
  const bounds = boundsOf(layout, id);
  if (!bounds) return null;
  const { low, high } = bounds;
  const cutAt = (cut: Cut): Ring | null => {
    const rings = compartmentInCut(layout, id, cut, hull ? hullCut(hull, cut) : null);
    return rings.reduce<Ring | null>(
      (best, ring) => (best === null || spread(ring) > spread(best) ? ring : best),
      null,
    );
  };
  // The outline may reach beyond the hull: each cut goes through the middle of what the one before has left.
  const section = cutAt({ frame: SECTION, at: (low[0] + high[0]) / 2 });
  const inSection = section && boundsOnPaper(section);
  if (!inSection) return null;
  const profile = cutAt({ frame: PROFILE, at: -(inSection.low[0] + inSection.high[0]) / 2 });
  const plan = cutAt({ frame: PLAN, at: (inSection.low[1] + inSection.high[1]) / 2 });
  return profile && plan ? { profile, plan, section } : null;
}

const spread = (ring: Ring): number => {
  const bounds = boundsOnPaper(ring);
  return bounds ? (bounds.high[0] - bounds.low[0]) * (bounds.high[1] - bounds.low[1]) : 0;
};

/** A reading that the sketch shows: between two points of a view, boat metres on paper axes. */
export interface Dimension {
  readonly letter: string;
  readonly view: keyof Sketch;
  readonly from: Vec2;
  readonly to: Vec2;
  /** Millimetres on paper to the left of the way from `from` to `to`, y up: the line stands off the thing itself. */
  readonly asideMm: number;
  /** How far along stands the letter; default half way. Of two that cross it parts the letters. */
  readonly letterAt?: number;
}

/** The widest stretch of a ring at one height (axis 1) or at one place along (axis 0), as two points. */
export function stretch(ring: Ring, axis: 0 | 1, at: number): readonly [Vec2, Vec2] | null {
  const cuts = crossingsAt(axis === 1 ? ring : ring.map(([u, v]): Vec2 => [v, u]), at);
  let best: readonly [number, number] | null = null;
  for (let i = 0; i + 1 < cuts.length; i += 2) {
    const pair = [cuts[i] ?? 0, cuts[i + 1] ?? 0] as const;
    if (!best || pair[1] - pair[0] > best[1] - best[0]) best = pair;
  }
  if (!best) return null;
  return axis === 1
    ? [
        [best[0], at],
        [best[1], at],
      ]
    : [
        [at, best[0]],
        [at, best[1]],
      ];
}

/** The corner of a ring nearest to a corner of its bounds. */
export function cornerOf(ring: Ring, right: boolean, up: boolean): Vec2 {
  const bounds = boundsOnPaper(ring);
  if (!bounds) return [0, 0];
  const target: Vec2 = [bounds[right ? 'high' : 'low'][0], bounds[up ? 'high' : 'low'][1]];
  return ring.reduce((best, p) => (apart(p, target) < apart(best, target) ? p : best));
}

export const apart = (a: Vec2, b: Vec2): number => portable.hypot(a[0] - b[0], a[1] - b[1]);

const CAPTION_MM = 4;
const MARGIN_MM = 12;
const GAP_MM = 14;
const WAY_ASIDE_MM = 6;
const WAYS: Readonly<Record<keyof Sketch, readonly [caption: string, left: string, right: string]>> = {
  profile: ['Profile', 'aft', 'forward'],
  plan: ['Plan', 'aft', 'forward'],
  section: ['Section, looking forward', 'port', 'starboard'],
};

/** The sketch with its lettered dimensions, in a box of paper; profile over plan, the section beside the profile. */
export function drawSketch(
  sketch: Sketch,
  dimensions: readonly Dimension[],
  [x, y]: Vec2,
  widthMm: number,
): { readonly marks: readonly Mark[]; readonly heightMm: number } {
  const bounds = {
    profile: boundsOnPaper(sketch.profile),
    plan: boundsOnPaper(sketch.plan),
    section: boundsOnPaper(sketch.section),
  };
  if (!bounds.profile || !bounds.plan || !bounds.section) return { marks: [], heightMm: 0 };
  const size = (view: keyof Sketch): Vec2 => {
    const box = bounds[view];
    return box ? [box.high[0] - box.low[0], box.high[1] - box.low[1]] : [0, 0];
  };
  const long = Math.max(size('profile')[0], size('plan')[0]);
  const tall = Math.max(size('profile')[1], size('section')[1]);
  // A sketch fills its room: readings are taken from the boat, not off the paper.
  const perMetre = Math.min(
    (widthMm - 4 * MARGIN_MM - GAP_MM) / (long + size('section')[0]),
    TALLEST_MM / (tall + size('plan')[1]),
  );
  const mm = (metres: number): number => metres * perMetre;
  const low = (view: keyof Sketch): Vec2 => bounds[view]?.low ?? [0, 0];
  const right = x + 3 * MARGIN_MM + mm(long) + GAP_MM;
  const upperFoot = y + CAPTION_MM + MARGIN_MM + mm(tall);
  const lowerFoot = upperFoot + 2 * MARGIN_MM + CAPTION_MM + mm(size('plan')[1]);
  const place = (view: keyof Sketch, [u, v]: Vec2): Vec2 => [
    (view === 'section' ? right : x + MARGIN_MM) + mm(u - (view === 'section' ? low('section')[0] : low('profile')[0])),
    (view === 'plan' ? lowerFoot : upperFoot) - mm(v - low(view)[1]),
  ];
  const marks: Mark[] = [];
  for (const view of ['profile', 'plan', 'section'] as const) {
    const [caption, left, other] = WAYS[view];
    const a = place(view, low(view));
    const b = place(view, [low(view)[0] + size(view)[0], low(view)[1] + size(view)[1]]);
    marks.push(
      text(caption, [view === 'section' ? right - MARGIN_MM : x, b[1] - MARGIN_MM + TEXT.body], { face: 'strong' }),
      text(left, [a[0] - WAY_ASIDE_MM, a[1] + MARGIN_MM - 1.5], { ink: 'second' }),
      text(other, [b[0] + WAY_ASIDE_MM, a[1] + MARGIN_MM - 1.5], { anchor: 'end', ink: 'second' }),
      outline(
        sketch[view].map((p) => place(view, p)),
        { widthMm: WIDTH.outline },
      ),
    );
  }
  for (const dimension of dimensions) {
    const { view, from, to, letter, asideMm, letterAt } = dimension;
    marks.push(...dimensionMarks(place(view, from), place(view, to), asideMm, letter, letterAt));
  }
  return { marks, heightMm: lowerFoot + MARGIN_MM + 2 - y };
}

/** Most height that both rows of views may take together, without captions and margins. */
const TALLEST_MM = 58;
const BALLOON_MM = 2.7;

/** An arrow both ways between two points of paper, set aside with thin lines back to them, its letter in a balloon. */
export function dimensionMarks(from: Vec2, to: Vec2, asideMm: number, letter: string, letterAt = 0.5): Mark[] {
  const length = apart(from, to);
  if (length < 0.5) return [];
  const d: Vec2 = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const left: Vec2 = [d[1] * asideMm, -d[0] * asideMm];
  const a: Vec2 = [from[0] + left[0], from[1] + left[1]];
  const b: Vec2 = [to[0] + left[0], to[1] + left[1]];
  const middle: Vec2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const thin = { widthMm: WIDTH.hair };
  return [
    ...(asideMm === 0 ? [] : [line([from, a], thin), line([to, b], thin)]),
    ...arrow(middle, d, length / 2),
    ...arrow(middle, [-d[0], -d[1]], length / 2),
    ...balloon([a[0] + (b[0] - a[0]) * letterAt, a[1] + (b[1] - a[1]) * letterAt], letter),
  ];
}

export const balloon = ([x, y]: Vec2, letter: string): Mark[] => [
  { kind: 'area', rings: [circle([x, y], BALLOON_MM)], ink: 'paper' },
  outline(circle([x, y], BALLOON_MM), { widthMm: WIDTH.dimension }),
  text(letter, [x, y + TEXT.body / 2], { anchor: 'middle', face: 'strong' }),
];
