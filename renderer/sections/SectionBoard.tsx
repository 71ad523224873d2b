import { UP } from '@core/base/vec';
import type { Boat, Hull } from '@core/boat/schema/boat';
import { waterDensityOf } from '@core/boat/sea-water';
import { bodyPlan } from '@core/output/views/lines-plan';
import { measuredSurface } from '@core/shape/hull/station-between';
import type { WaterPlane } from '@core/shape/hull/types';
import { type JSX, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { tokens } from '../app/tokens';
import { forgetWidths } from '../board/paint/pen';
import { registerProbe } from '../board/probe';
import { useFontsReady, usePixelRatio, useSize } from '../board/use-size';
import { useApp } from '../store/app';
import { useCursor } from '../store/cursor';
import { floatOf } from '../store/floating';
import { PointsTable } from './PointsTable';
import { paintLines, paintSheet } from './paint/paint';
import { registerSectionsProbe } from './probe';
import { activeStation, hullAsHeld, hullLines, type SectionScene } from './scene';
import { type BodyCamera, fittedBody, sectionSheetOf } from './sheet';
import { activeStationId, useSections } from './store';
import { useSectionsPointing } from './use-sections-pointing';

const LEVEL: WaterPlane = { up: UP, levelM: 0 };

/** The section board: body plan, profile, half plan and curve of areas of the hull, and the table of its active station. */
export function SectionBoard({ boat, hull }: { readonly boat: Boat; readonly hull: Hull }): JSX.Element {
  const root = useRef<HTMLDivElement>(null);
  const size = useSize(root);
  // The other board tells the state of the window to tests; while this one stands here, it does.
  useEffect(() => registerProbe(() => null), []);
  return (
    <div ref={root} className="section-board" data-testid="section-board">
      {size.width > 80 && size.height > 80 ? (
        <Sheet boat={boat} hull={hull} width={size.width} height={size.height} />
      ) : null}
    </div>
  );
}

interface SheetProps {
  readonly boat: Boat;
  readonly hull: Hull;
  readonly width: number;
  readonly height: number;
}

function Sheet({ boat, hull: rest, width, height }: SheetProps): JSX.Element {
  const theme = useApp((state) => state.theme);
  const units = useApp((state) => state.displayUnits);
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const selected = useApp((state) => (state.selection?.kind === 'station' ? state.selection.id : null));
  const { held, stationId, point, comb, combScaleM, lines: linesShown, waterlinesM, buttocksM } = useSections();
  const root = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const paper = useRef<HTMLCanvasElement>(null);
  const ratio = usePixelRatio();
  const fonts = useFontsReady(forgetWidths);

  // A station picked in a table or by undo is the one to edit.
  useEffect(() => {
    if (selected !== null && selected !== useSections.getState().stationId)
      useSections.setState({ stationId: selected, point: null, refusal: null });
  }, [selected]);

  const sheet = useMemo(() => sectionSheetOf(width, height), [width, height]);
  const fit = useMemo(() => fittedBody(sheet.body, bodyPlan(rest, measuredSurface(rest))), [sheet, rest]);
  const [moved, setMoved] = useState<BodyCamera | null>(null);
  const fitRef = useRef(fit);
  // While a point is held the paper lies still, whatever the point does to the extent of the hull.
  if (!held) fitRef.current = fit;
  const camera = moved ?? fitRef.current;
  const setCamera = useCallback(
    (change: (camera: BodyCamera) => BodyCamera) => setMoved((now) => change(now ?? fitRef.current)),
    [],
  );

  const id = activeStationId(boat, stationId) ?? '';
  const hull = useMemo(() => hullAsHeld(rest, held), [rest, held]);
  const lines = useMemo(() => ({ shown: linesShown, waterlinesM, buttocksM }), [linesShown, waterlinesM, buttocksM]);
  const level = useMemo(
    (): WaterPlane => (attitude ? { up: attitude.up, levelM: attitude.levelM } : LEVEL),
    [attitude],
  );
  const drawn = useMemo(() => hullLines(boat, hull, level, lines), [boat, hull, level, lines]);
  const active = useMemo(
    () => activeStation(boat, drawn, id, { point, comb, combScaleM }),
    [boat, drawn, id, point, comb, combScaleM],
  );
  const restKg = floatOf(boat, attitude)?.displacementKg ?? 0;
  const densityKgM3 = waterDensityOf(boat);
  const scene = useMemo(
    (): SectionScene | null =>
      active
        ? {
            ...drawn,
            colours: tokens(theme),
            units,
            sheet,
            camera,
            level,
            densityKgM3,
            restKg,
            active,
            lines,
            isHeld: held !== null,
            fonts,
          }
        : null,
    [drawn, theme, units, sheet, camera, level, densityKgM3, restKg, active, lines, held, fonts],
  );
  const sceneRef = useRef<SectionScene | null>(scene);
  sceneRef.current = scene;

  useLayoutEffect(() => {
    const ctx = contextOf(canvas.current, ratio);
    if (ctx && scene) paintLines(ctx, scene, width, height);
  }, [scene, ratio, width, height]);

  // The sheet below the lines knows nothing of where the points are.
  const ground = [
    scene?.sheet,
    scene?.camera,
    scene?.colours,
    scene?.units,
    scene?.level,
    scene?.lines,
    scene?.fonts,
    scene?.active.line.xM,
    scene?.body.length,
    scene?.surface.offsetM,
    ratio,
  ];
  const painted = useRef<readonly unknown[]>([]);
  useLayoutEffect(() => {
    if (ground.every((part, i) => part === painted.current[i])) return;
    const ctx = contextOf(paper.current, ratio);
    if (!ctx || !scene) return;
    painted.current = ground;
    paintSheet(ctx, scene, width, height);
  });

  useEffect(() => useCursor.getState().setPixelsPerMetre(camera.scale), [camera.scale]);
  useEffect(() => registerSectionsProbe(() => sceneRef.current, canvas), []);

  const focusTable = useCallback(() => {
    // The row of what was just picked is there after the next drawing.
    requestAnimationFrame(() => {
      const rows = root.current?.querySelector('.points-table');
      const row = rows?.querySelector('[aria-pressed="true"]') ?? rows?.querySelector('.row-name[tabindex="0"]');
      if (row instanceof HTMLElement) row.focus({ preventScroll: true });
    });
  }, []);
  const surface = useRef<HTMLDivElement>(null);
  const cursor = useSectionsPointing(surface, sceneRef, setCamera, focusTable);

  return (
    <div ref={root}>
      <div ref={surface} aria-hidden="true" className="section-canvas" style={{ cursor }}>
        {[paper, canvas].map((own, layer) => (
          <canvas
            key={layer === 0 ? 'sheet' : 'lines'}
            ref={own}
            width={Math.round(width * ratio)}
            height={Math.round(height * ratio)}
            style={{ width, height }}
          />
        ))}
      </div>
      <div
        className="section-column"
        style={{
          left: sheet.column.x,
          top: sheet.column.y,
          width: sheet.column.w,
          height: sheet.column.h - sheet.areas.h,
        }}
      >
        {active ? <PointsTable boat={boat} id={id} end={active.line.end} /> : null}
      </div>
      {moved ? (
        <button type="button" className="button plain section-fit" onClick={() => setMoved(null)}>
          Whole body plan
        </button>
      ) : null}
    </div>
  );
}

function contextOf(canvas: HTMLCanvasElement | null, ratio: number): CanvasRenderingContext2D | null {
  const ctx = canvas?.getContext('2d') ?? null;
  ctx?.setTransform(ratio, 0, 0, ratio, 0, 0);
  return ctx;
}
