import { bodyOf } from '@core/base/formulas/body-sizes';
import type { Boat } from '@core/boat/schema/boat';
import type { TaskReport } from '@core/engine/service/service-report';
import { type JSX, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { tokens } from '../../app/tokens';
import { Timeline } from '../../panels/service/Timeline';
import { useApp } from '../../store/app';
import { hullOf, layoutOf } from '../../store/derived';
import { taskInHand, useService } from '../../store/service';
import { handBoard } from '../hand';
import { forgetWidths } from '../paint/pen';
import { registerProbe } from '../probe';
import { pathOfRun, placedThings } from '../things';
import { useCamera } from '../use-camera';
import { useFontsReady, usePixelRatio, useSize } from '../use-size';
import { paintRehearsal } from './paint';
import { extentOfRehearsal, type RehearsalScene, stanceOf } from './scene';
import { rehearsalSheet } from './sheet';
import { useRehearsalPointing } from './use-rehearsal-pointing';

/** The board area while a task is rehearsed: the drawing of its step, and the strip of all of them. */
export function RehearsalBoard({ boat }: { readonly boat: Boat }): JSX.Element {
  const report = useService((state) => state.report);
  const chosen = useService((state) => state.chosen);
  const task = taskInHand({ report, chosen });
  const root = useRef<HTMLDivElement>(null);
  const size = useSize(root);
  // The other board tells the state of the window to tests; while this one stands here, it does.
  useEffect(() => registerProbe(() => null), []);
  return (
    <div className="rehearsal">
      <div ref={root} className="rehearsal-board" data-testid="rehearsal-board">
        {task && size.width > 80 && size.height > 80 ? (
          <Drawing boat={boat} task={task} width={size.width} height={size.height} />
        ) : null}
      </div>
      <Timeline boat={boat} />
    </div>
  );
}

const NO_STEPS: RehearsalScene['steps'] = [];

function Drawing({
  boat,
  task,
  width,
  height,
}: {
  readonly boat: Boat;
  readonly task: TaskReport;
  readonly width: number;
  readonly height: number;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const runs = useApp((state) => state.report?.runs);
  const theme = useApp((state) => state.theme);
  const units = useApp((state) => state.displayUnits);
  const hover = useApp((state) => state.hover);
  const person = useService((state) => state.report?.person.id ?? null);
  const rehearsal = useService((state) => state.rehearsal);
  const index = useService((state) => state.step);
  const isStale = useService((state) => state.isStale);
  const ratio = usePixelRatio();
  const fonts = useFontsReady(forgetWidths);
  const canvas = useRef<HTMLCanvasElement>(null);

  const steps = rehearsal?.key === task.key ? rehearsal.steps : NO_STEPS;
  const record = person === null ? undefined : boat.people?.[person];
  const body = useMemo(() => bodyOf(record ?? null).sizes, [record]);
  const stance = useMemo(() => stanceOf(boat, task, steps, body), [boat, task, steps, body]);
  const extent = useMemo(
    () => extentOfRehearsal(boat, arrangementId, task, steps, body),
    [boat, arrangementId, task, steps, body],
  );
  const sheet = useMemo(() => rehearsalSheet(width, height, extent), [width, height, extent]);
  const control = useCamera(sheet, extent, null);
  const hull = hullOf(boat);
  const layout = layoutOf(boat, arrangementId);
  const placed = useMemo(() => placedThings(boat, arrangementId, null), [boat, arrangementId]);
  const paths = useMemo(
    () => (runs ?? []).flatMap((run) => pathOfRun(boat, arrangementId, run, null) ?? []),
    [boat, arrangementId, runs],
  );
  const hovered = hover === null || hover.kind === 'finding' ? null : hover.id;
  const colours = tokens(theme);
  const scene = useMemo(
    (): RehearsalScene => ({
      boat,
      hull,
      layout,
      colours,
      units,
      placed,
      paths,
      task,
      steps,
      index,
      body,
      stance,
      sheet,
      camera: control.camera,
      hovered,
      isStale,
      fonts,
    }),
    [
      boat,
      hull,
      layout,
      colours,
      units,
      placed,
      paths,
      task,
      steps,
      index,
      body,
      stance,
      sheet,
      control.camera,
      hovered,
      isStale,
      fonts,
    ],
  );
  useLayoutEffect(() => {
    const ctx = canvas.current?.getContext('2d');
    if (!ctx) return;
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    paintRehearsal(ctx, scene);
  }, [scene, ratio]);

  const latest = useRef({ control, sheet });
  latest.current = { control, sheet };
  // Closer, further, the whole: the same commands as on the board.
  useEffect(
    () =>
      handBoard({
        scene: () => null,
        sheet: () => latest.current.sheet,
        camera: () => latest.current.control,
        options: () => [],
      }),
    [],
  );
  // Another task is looked at as a whole first.
  const { fit: showAll } = control;
  useEffect(() => {
    if (task.key !== '') showAll();
  }, [task.key, showAll]);
  const pointing = useRehearsalPointing(canvas, sheet, control.change);
  return (
    <div aria-hidden="true">
      <canvas
        ref={canvas}
        width={Math.round(width * ratio)}
        height={Math.round(height * ratio)}
        style={{ width, height, cursor: pointing.cursor }}
      />
    </div>
  );
}
