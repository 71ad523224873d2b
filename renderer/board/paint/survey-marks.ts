import type { Vec2, Vec3 } from '@core/base/vec';
import { endNames } from '@core/boat/survey-ends';
import { surveyName } from '@core/output/text/survey-text';
import { project } from '@core/output/views/drawing';
import { surveyOf } from '../../store/survey';
import type { Selection } from '../../store/types';
import type { Scene, View } from '../scene';
import { toScreen } from '../sheet';
import type { Ctx } from './pen';

const ARM_PX = 4;
const RING_PX = 7;
/** Marks take a press from this far. */
const REACH_PX = 9;

/** Where the surveyed points of the boat stand, by their id. */
function placesOf({ boat }: Pick<Scene, 'boat'>): readonly (readonly [string, Vec3])[] {
  const result = boat.survey ? surveyOf(boat) : null;
  return Object.entries(result?.points ?? {})
    .filter(([, { sdM }]) => !sdM.includes(null))
    .map(([id, { at }]) => [id, at] as const);
}

/** Surveyed points as small crosses; the picked or pointed-at reading as the tape lay; its ends by name. */
export function paintSurvey(
  ctx: Ctx,
  scene: Pick<Scene, 'boat' | 'colours' | 'selection'>,
  view: Pick<View, 't' | 'frame'>,
  hover: Selection | null,
): void {
  const places = placesOf(scene);
  if (places.length === 0) return;
  const { colours, boat } = scene;
  const survey = boat.survey ?? {};
  const screen = (at: Vec3): Vec2 => toScreen(view.t, project(view.frame, at));
  const picked = [scene.selection, hover];
  const named = new Set(picked.flatMap((one) => (one?.kind === 'surveyPoint' ? [one.id] : [])));
  const known = new Map(places);
  const names = endNames(survey);
  for (const one of picked) {
    const reading = one?.kind === 'reading' ? survey.readings?.[one.id] : undefined;
    if (!reading) continue;
    const ends = [reading.from, reading.to].map((end) => {
      const found = names.get(end);
      const id = found?.id ?? end;
      const datum = found?.kind === 'datum' ? survey.datums?.[id] : undefined;
      return { id, at: datum?.at ?? known.get(id) ?? null, axis: datum?.axis ?? null };
    });
    const [a, b] = tapeOf(ends);
    for (const { id, axis } of ends) if (axis === null) named.add(id);
    if (!a || !b) continue;
    ctx.setLineDash([6, 3]);
    ctx.lineWidth = 1.6;
    ctx.strokeStyle = colours.accl;
    ctx.beginPath();
    ctx.moveTo(...screen(a));
    ctx.lineTo(...screen(b));
    ctx.stroke();
    ctx.setLineDash([]);
  }
  ctx.font = '500 11px "Barlow Semi Condensed", sans-serif';
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  for (const [id, at] of places) {
    const [x, y] = screen(at).map((part) => Math.round(part) + 0.5) as [number, number];
    const strong = named.has(id);
    ctx.lineWidth = strong ? 1.8 : 1;
    ctx.strokeStyle = strong ? colours.accl : colours.ink3;
    ctx.beginPath();
    ctx.moveTo(x - ARM_PX, y);
    ctx.lineTo(x + ARM_PX, y);
    ctx.moveTo(x, y - ARM_PX);
    ctx.lineTo(x, y + ARM_PX);
    if (strong) {
      ctx.moveTo(x + RING_PX, y);
      ctx.arc(x, y, RING_PX, 0, 2 * Math.PI);
    }
    ctx.stroke();
    if (!strong) continue;
    const name = surveyName(survey, id);
    ctx.lineWidth = 3.5;
    ctx.strokeStyle = colours.paper;
    ctx.strokeText(name, x + RING_PX + 4, y);
    ctx.fillStyle = colours.ink;
    ctx.fillText(name, x + RING_PX + 4, y);
  }
}

/** From a plane the tape runs square to it: the datum's end is the foot of the point in the plane. */
function tapeOf(
  ends: readonly { readonly at: Vec3 | null; readonly axis: 'x' | 'y' | 'z' | null }[],
): readonly [Vec3 | null, Vec3 | null] {
  const [a, b] = ends;
  const foot = (plane: (typeof ends)[number] | undefined, point: Vec3 | null): Vec3 | null => {
    if (!plane?.at || !plane.axis || !point) return plane?.at ?? null;
    const at: [number, number, number] = [...point];
    const axis = 'xyz'.indexOf(plane.axis) as 0 | 1 | 2;
    at[axis] = plane.at[axis];
    return at;
  };
  return [foot(a, b?.at ?? null), foot(b, a?.at ?? null)];
}

/** The surveyed point under a press, the nearest first. */
export function surveyPointAt(scene: Pick<Scene, 'boat'>, view: Pick<View, 't' | 'frame'>, at: Vec2): Selection | null {
  let best: { readonly id: string; readonly far: number } | null = null;
  for (const [id, place] of placesOf(scene)) {
    const [x, y] = toScreen(view.t, project(view.frame, place));
    const far = Math.hypot(x - at[0], y - at[1]);
    if (far <= REACH_PX && (!best || far < best.far)) best = { id, far };
  }
  return best === null ? null : { kind: 'surveyPoint', id: best.id };
}
