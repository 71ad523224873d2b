import {
  type PictureMark,
  type PicturePlaneFound,
  type PicturePlaneProblem,
  picturePlane,
} from '@core/base/formulas/picture-plane';
import type { Vec2, Vec3 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import type { Station } from '@core/boat/station-edits';
import type { TracedCurve } from '@core/boat/traced';
import { create } from 'zustand';

export type TracedView = 'profile' | 'plan' | 'section';

interface TraceState {
  /** Key of the boat's pictures. */
  readonly pictureId: string | null;
  readonly view: TracedView;
  readonly curve: TracedCurve;
  /** Clicking sets marks of the scale, or points of the curve. */
  readonly mode: 'scale' | 'trace';
  readonly marks: readonly PictureMark[];
  /** Clicked points of the curve, pixels of the picture. */
  readonly points: readonly Vec2[];
  /** Where the section stands, metres. */
  readonly xM: number;
  readonly opacity: number;
  /** Stations traced before there are two, which a hull needs. */
  readonly waiting: readonly Station[];
  readonly problem: string | null;
}

const FRESH: TraceState = {
  pictureId: null,
  view: 'profile',
  curve: 'keel',
  mode: 'scale',
  marks: [],
  points: [],
  xM: 0,
  opacity: 75,
  waiting: [],
  problem: null,
};

export const useTrace = create<TraceState>()(() => FRESH);
export const setTrace = (change: Partial<TraceState>): void => useTrace.setState(change);

export const CURVES_OF: Readonly<Record<TracedView, readonly TracedCurve[]>> = {
  profile: ['keel', 'sheer'],
  plan: ['deckEdge'],
  section: ['section'],
};

export const CURVE_WORDS: Readonly<Record<TracedCurve, string>> = {
  section: 'Section',
  keel: 'Keel line',
  sheer: 'Sheer line',
  deckEdge: 'Deck edge',
};

/** The two places of a mark, in the words of its view. */
export const AXES_OF: Readonly<Record<TracedView, readonly [string, string]>> = {
  profile: ['x from aft', 'Height'],
  plan: ['x from aft', 'Off the centre'],
  section: ['Off the centre', 'Height'],
};

/** A place of the view's plane in the boat. */
export const inBoat = (view: TracedView, [u, v]: Vec2, xM: number): Vec3 =>
  view === 'profile' ? [u, 0, v] : view === 'plan' ? [u, v, 0] : [xM, u, v];

const onView = (view: TracedView, [x, y, z]: Vec3): Vec2 =>
  view === 'profile' ? [x, z] : view === 'plan' ? [x, y] : [y, z];

/** Takes up a picture of the boat where it was left: its view and the marks of its scale. */
export function takePicture(boat: Boat, id: string): void {
  const picture = boat.pictures?.[id];
  if (!picture) return;
  const view = picture.view ?? 'profile';
  const marks = (picture.scalePoints ?? []).map(
    ({ pixel, at }): PictureMark => ({
      pixel: [pixel[0], pixel[1]],
      place: onView(view, [at[0], at[1], at[2]]),
    }),
  );
  const xM = view === 'section' ? (picture.scalePoints?.[0]?.at[0] ?? 0) : useTrace.getState().xM;
  setTrace({
    pictureId: id,
    view,
    curve: CURVES_OF[view][0] ?? 'keel',
    marks,
    xM,
    points: [],
    problem: null,
    mode: picturePlane(marks).ok ? 'trace' : 'scale',
  });
}

export const planeOf = (marks: readonly PictureMark[]): PicturePlaneFound => picturePlane(marks);

/** Marks are counted from 1, as they are numbered on the picture. */
export function planeProblemWords(problem: PicturePlaneProblem): string {
  switch (problem.kind) {
    case 'tooFew':
      return 'Two marks give the scale: click one on the picture, then another far from it.';
    case 'samePixel':
      return `Marks ${problem.marks[0] + 1} and ${problem.marks[1] + 1} are the same point of the picture: move one far from the other.`;
    case 'samePlace':
      return `Marks ${problem.marks[0] + 1} and ${problem.marks[1] + 1} are given the same place in the boat: type where each is.`;
    case 'inLine':
      return `Marks ${problem.marks.map((mark) => mark + 1).join(', ')} lie in one line: to straighten a picture three of them must not.`;
    case 'crossing':
      return 'The sides between the four marks cross, or run round the other way than in the boat: two of the marks are swapped.';
  }
}
