import type { Vec3 } from '@core/base/vec';
import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import { pathOf } from '@core/output/views/curves';
import type Konva from 'konva';
import { memo, useCallback, useMemo } from 'react';
import { Layer, Shape } from 'react-konva/lib/ReactKonvaCore';
import { useApp } from '../store/app';
import { useDrag } from '../store/drag';
import { useDrawing } from '../store/drawing';
import { useJoining, useJoinPointer } from '../store/joining';
import { usePlacing } from '../store/placing';
import { type RunPlace, useRunPlace } from '../store/run-place';
import { type OfferedWay, offeredWays, useRunQuestion } from '../store/run-question';
import { placeAlong } from '../tools/along-run';
import type { Annotations } from './annotate';
import { drawsWith } from './drawing/tool-pointing';
import { focusOf } from './focus';
import { paintAllPorts } from './joining/paint-ports';
import { liveOf } from './live';
import { paintAlsoHovered, paintMoving, paintOverlay } from './paint/overlay';
import type { Ghost, Live, Scene } from './scene';

interface Props {
  readonly scene: Scene;
  readonly notes: Annotations;
  readonly focused: boolean;
}

/** The layer that a drag repaints. Only it listens to the steps of a drag and to the pointer. */
export const LiveLayer = memo(function LiveLayer({ scene, notes, focused }: Props) {
  const thingId = useDrag((s) => s.thingId);
  const start = useDrag((s) => s.start);
  const place = useDrag((s) => s.place);
  const along = useDrag((s) => s.along);
  const pulled = useDrag((s) => s.pulled);
  const refused = useDrag((s) => s.refused);
  const runs = useDrag((s) => s.runs);
  const findings = useDrag((s) => s.findings);
  const waiting = useDrag((s) => s.sent > s.answered);
  const hover = useApp((s) => s.hover);
  const alsoHovered = useApp((s) => s.alsoHovered);
  const drawing = useDrawing();
  const draws = useApp((s) => drawsWith(s.tool));
  const joins = useApp((s) => s.tool === 'join');
  const joining = useJoining();
  const pointer = useJoinPointer((s) => s.at);
  const faults = useApp((s) => s.stage === 'compartments');
  const marked = useRunPlace((s) => s.marked);
  const placeLookedAt = usePlacing((s) => s.chosen);
  const held = useMemo(
    () => liveOf(scene, { thingId, start, place, along, pulled, refused, runs, findings, waiting }),
    [scene, thingId, start, place, along, pulled, refused, runs, findings, waiting],
  );
  const offered = useRunQuestion(offeredWays);
  const live = useMemo(
    () => ({ ...held, marked: placeOf(scene, held, marked), ghosts: offered.map((way) => ghostOf(scene, way)) }),
    [scene, held, marked, offered],
  );
  const focus = useMemo(() => focusOf(scene, held), [scene, held]);
  // One canvas for both: each more is one more to blend in every frame.
  const paint = useCallback(
    (ctx: Konva.Context) => {
      paintMoving(ctx._context, scene, live, focus);
      const over = hover?.kind === 'compartment' ? hover.id : null;
      scene.tinting?.paintPlaces(ctx._context, scene, notes, placeLookedAt, over);
      paintOverlay(ctx._context, scene, live, notes, hover, focused, drawing, focus, draws, faults);
      paintAlsoHovered(ctx._context, scene, live, alsoHovered);
      paintAllPorts(ctx._context, scene, focus, hover, { joining, joins, draws, pointer });
    },
    [
      scene,
      live,
      focus,
      notes,
      hover,
      alsoHovered,
      focused,
      drawing,
      draws,
      faults,
      joining,
      joins,
      pointer,
      placeLookedAt,
    ],
  );
  return (
    <Layer listening={false}>
      <Shape sceneFunc={paint} perfectDrawEnabled={false} />
    </Layer>
  );
});

function placeOf(scene: Scene, held: Live, marked: RunPlace['marked']): Vec3 | null {
  if (!marked) return null;
  const path = [...held.paths, ...scene.paths].find(({ id }) => id === marked.line)?.path;
  return path ? (placeAlong(path, marked.alongM)?.at ?? null) : null;
}

/** Another way for a line, as a run. */
function ghostOf({ boat }: Pick<Scene, 'boat'>, { line, prims, isLit }: OfferedWay): Ghost {
  const radiusM = (lineKindOf(boat.lineKinds, boat.lines[line]?.kind ?? '')?.outsideM ?? 0.02) / 2;
  return { isLit, run: { id: line, routed: true, path: pathOf(prims), stopsAt: null, radiusM, holes: [] } };
}
