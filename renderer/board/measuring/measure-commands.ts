import type { Vec3 } from '@core/base/vec';
import { FRAMES, project } from '@core/output/views/drawing';
import type { Command } from '../../app/command';
import { useApp } from '../../store/app';
import { useCursor } from '../../store/cursor';
import { useDrawing } from '../../store/drawing';
import { facesAround } from '../../tools/measuring';
import { inView } from '../drawing/make';
import { measureField } from '../drawing/tool-pointing';
import { boardNow, needsDrawing } from '../hand';
import { gapsOf } from '../live';
import { detailFrame } from '../scene';
import { keepMeasures } from './keep';

/** From the last set point, else from the sides of the picked thing, else from the pointer: to what is around it. */
function toFaces(): void {
  const scene = boardNow()?.scene() ?? null;
  const { activeView, selection, notify } = useApp.getState();
  if (!scene) return;
  const { draft } = useDrawing.getState();
  const view = draft?.view ?? detailFrame(activeView).name;
  const frame = FRAMES[view];
  const picked = selection?.kind === 'thing' ? scene.placed.find(({ id }) => id === selection.id) : undefined;
  const { at: cursor } = useCursor.getState();
  if (picked && !draft) {
    const gaps = gapsOf(scene, picked, frame).filter(({ gapM }) => gapM > 0);
    const ends = gaps.map(({ axis, side, gapM, from: edge }) => {
      const at = (value: number): Vec3 => picked.pose.at.map((own, k) => (k === axis ? value : own)) as unknown as Vec3;
      return { view, points: [at(edge), at(edge + side * gapM)] };
    });
    if (ends.length === 0) notify('Nothing stands around it in this view');
    else keepMeasures(ends);
    return;
  }
  const pointer = cursor ? project(frame, [cursor[0] ?? 0, cursor[1] ?? 0, cursor[2] ?? 0]) : null;
  const from = draft?.points.at(-1) ?? pointer;
  if (!from) {
    notify('Set a point, or select a thing, to measure from');
    return;
  }
  const hits = facesAround(from, measureField(scene, frame));
  if (hits.length === 0) notify('Nothing is drawn around it in this view');
  else keepMeasures(hits.map((hit) => ({ view, points: [inView(scene, view, from), inView(scene, view, hit)] })));
}

const hasMeasures = (): string | null => (useDrawing.getState().measures.length === 0 ? 'Nothing was measured' : null);

export const MEASURE_COMMANDS: readonly Command[] = [
  {
    id: 'measure-faces',
    words: 'Measure to the faces around',
    group: 'Tools',
    also: 'distance clearance gap walls tape',
    keys: 'F',
    why: needsDrawing,
    run: toFaces,
  },
  {
    id: 'measure-clear',
    words: 'Clear the measures on the drawing',
    group: 'Tools',
    also: 'remove dimensions tape',
    keys: 'Shift M',
    why: hasMeasures,
    run: () => useDrawing.setState({ measures: [] }),
  },
];
