import { FRAMES, type ViewName } from '@core/output/views/drawing';
import type { FieldView } from '../../store/types';
import { detailTransform, type Focus } from '../focus';
import { type Scene, viewsOf } from '../scene';
import type { Transform } from '../sheet';
import type { Looking } from './hold';

/** A field as the drawing tools see it: its frame, how it lies on the screen, and where it cuts. */
export interface LookingOn extends Looking {
  readonly t: Transform;
}

export function lookingOn(scene: Scene, view: FieldView, focus: Focus | null): LookingOn | null {
  if (view === 'detail') {
    if (!focus) return null;
    const { t } = detailTransform(scene.sheet.fields.detail, focus);
    const axis = focus.frame.toViewer[0] !== 0 ? 0 : focus.frame.toViewer[1] !== 0 ? 1 : 2;
    return { view, frame: focus.frame, t, scale: t.scale, cutAt: focus.at[axis] };
  }
  const found = viewsOf(scene).find(({ name }) => name === view);
  if (!found) return null;
  return { view, frame: FRAMES[view as ViewName], t: found.t, scale: found.t.scale, cutAt: found.cut?.at ?? null };
}
