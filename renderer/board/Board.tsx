import { UP, type Vec2, type Vec3 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import { project, SECTION } from '@core/output/views/drawing';
import type { WaterPlane } from '@core/shape/hull/types';
import type Konva from 'konva';
import {
  type KeyboardEvent,
  lazy,
  type RefObject,
  Suspense,
  useCallback,
  useDeferredValue,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { Layer, Shape, Stage } from 'react-konva/lib/ReactKonvaCore';
import { Hints } from '../app/hints/Hints';
import { tokens } from '../app/tokens';
import { useApp } from '../store/app';
import { hullOf, layoutOf } from '../store/derived';
import { useDrag } from '../store/drag';
import { useDrawing } from '../store/drawing';
import { usePlacing } from '../store/placing';
import type { Selection } from '../store/types';
import { useZones } from '../store/zones';
import { type Annotations, annotate } from './annotate';
import { BoardList, listed } from './BoardList';
import { cutScene } from './cut-scene';
import { DrawingBar } from './drawing/DrawingBar';
import { dropDrawing } from './drawing/marking';
import { handBoard } from './hand';
import { JoinBar } from './joining/JoinBar';
import { boardKey } from './keyboard';
import { LiveLayer } from './LiveLayer';
import { PickedBar } from './PickedBar';
import { PullBar } from './PullBar';
import { forgetWidths } from './paint/pen';
import { FieldPictures, paintStill } from './paint/still';
import { useTinting } from './placing/use-tinting';
import { registerProbe } from './probe';
import { type Scene, viewsOf } from './scene';
import { extentOf, heeledWater, keptExtent, waterDrawn } from './shape';
import { type Extent, sheetOf, toScreen } from './sheet';
import { boxOf, pathOfRun, placedThings } from './things';
import { useCamera } from './use-camera';
import { usePointing } from './use-pointing';
import { useFontsReady, usePixelRatio, useSize } from './use-size';

const PlacingBar = lazy(() => import('../panels/placing/PlacingBar').then((bar) => ({ default: bar.PlacingBar })));

const LEVEL: WaterPlane = { up: UP, levelM: 0 };
const NO_WATER = { profile: [], plan: [] } as const;

/** The drawing board: profile, plan, section and detail of the open boat on one sheet. Fills its container. */
export function Board() {
  const boat = useApp((s) => s.boat);
  const root = useRef<HTMLDivElement>(null);
  const size = useSize(root);
  const isAsked = usePlacing((s) => s.parts.length > 0);
  return (
    <div style={{ display: 'flex', flexDirection: 'column', width: '100%', height: '100%' }}>
      <div
        ref={root}
        data-testid="board"
        style={{
          position: 'relative',
          flex: 1,
          minHeight: 0,
          overflow: 'hidden',
          touchAction: 'none',
          userSelect: 'none',
        }}
      >
        {boat && size.width > 80 && size.height > 80 ? (
          <Sheet boat={boat} root={root} width={size.width} height={size.height} />
        ) : null}
      </div>
      {isAsked ? (
        <Suspense fallback={null}>
          <PlacingBar />
        </Suspense>
      ) : null}
    </div>
  );
}

interface SheetProps {
  readonly boat: Boat;
  readonly root: RefObject<HTMLDivElement | null>;
  readonly width: number;
  readonly height: number;
}

function Sheet({ boat, root, width, height }: SheetProps) {
  const arrangementId = useApp((s) => s.arrangementId);
  const report = useApp((s) => s.report);
  const theme = useApp((s) => s.theme);
  const layers = useApp((s) => s.layers);
  const units = useApp((s) => s.displayUnits);
  const selection = useApp((s) => s.selection);
  const alsoSelected = useApp((s) => s.alsoSelected);
  const activeView = useApp((s) => s.activeView);
  const sectionX = useApp((s) => s.sectionX);
  const heelDeg = useApp((s) => s.shownHeelDeg);
  const glide = useApp((s) => s.glide);
  const lifted = useLifted();
  const ratio = usePixelRatio();
  const fonts = useFontsReady(forgetWidths);
  const tinting = useTinting(boat);
  const [focused, setFocused] = useState(false);
  const list = useRef<HTMLDivElement>(null);

  const hull = hullOf(boat);
  const layout = layoutOf(boat, arrangementId);
  const extent = useKeptExtent(
    useMemo(() => extentOf(hull, layout), [hull, layout]),
    hull !== null,
  );
  const sheet = useMemo(() => sheetOf(width, height, extent), [width, height, extent]);
  const control = useCamera(sheet, extent, glide);

  const { up, levelM } = report?.attitude ?? LEVEL;
  const level = useMemo((): WaterPlane => ({ up: [up[0], up[1], up[2]], levelM }), [up[0], up[1], up[2], levelM]);
  // How she floats is known once she has been judged.
  const isJudged = report !== null;
  const heeled = useMemo(
    () => (hull && isJudged ? heeledWater(hull, level, heelDeg) : null),
    [hull, isJudged, level, heelDeg],
  );
  const water = useMemo(() => (hull ? waterDrawn(hull, level, heeled) : NO_WATER), [hull, level, heeled]);
  const section = useMemo(
    () => cutScene(boat, hull, layout, { frame: SECTION, at: sectionX }),
    [boat, hull, layout, sectionX],
  );
  const placed = useMemo(() => placedThings(boat, arrangementId, null), [boat, arrangementId]);
  const paths = useMemo(
    () => (report?.runs ?? []).flatMap((run) => pathOfRun(boat, arrangementId, run, null) ?? []),
    [boat, arrangementId, report],
  );
  const colours = tokens(theme);

  const scene = useMemo(
    (): Scene => ({
      boat,
      arrangementId,
      hull,
      layout,
      extent,
      report,
      colours,
      layers,
      units,
      sheet,
      camera: control.camera,
      selection,
      alsoSelected,
      activeView,
      sectionX,
      section,
      level,
      heeled,
      heelDeg,
      water,
      placed,
      paths,
      lifted,
      fonts,
      tinting,
    }),
    [
      boat,
      arrangementId,
      hull,
      layout,
      extent,
      report,
      colours,
      layers,
      units,
      sheet,
      control.camera,
      selection,
      alsoSelected,
      activeView,
      sectionX,
      section,
      level,
      heeled,
      heelDeg,
      water,
      placed,
      paths,
      lifted,
      fonts,
      tinting,
    ],
  );
  const sceneRef = useRef<Scene | null>(scene);
  sceneRef.current = scene;

  const sliding = useRecentlyChanged(sectionX);
  const notes = useNotes(scene, control.moving || sliding);
  const notesRef = useRef(notes);
  notesRef.current = notes;

  const focusList = useCallback(() => {
    list.current?.focus({ preventScroll: true });
    // Who points does not need the ring; it comes back with the first key.
    setFocused(false);
  }, []);
  const { cursor, cancel, holdPan } = usePointing(root, sceneRef, notesRef, control, focusList);
  useFollowingSection(scene);
  useEffect(() => registerProbe(() => sceneRef.current), []);

  const options = useMemo(
    () => listed({ boat, arrangementId, placed, layout, report }),
    [boat, arrangementId, placed, layout, report],
  );
  const onKeyUp = useCallback(
    (event: KeyboardEvent) => {
      if (event.key === ' ') holdPan(false);
    },
    [holdPan],
  );
  const keysRef = useRef({ control, cancel, options });
  keysRef.current = { control, cancel, options };
  useEffect(
    () =>
      handBoard({
        scene: () => sceneRef.current,
        sheet: () => sceneRef.current?.sheet ?? null,
        camera: () => keysRef.current.control,
        options: () => keysRef.current.options,
      }),
    [],
  );
  const onKeyDown = useCallback(
    (event: KeyboardEvent) => {
      const now = sceneRef.current;
      if (!now) return;
      setFocused(true);
      if (event.key === ' ') {
        event.preventDefault();
        if (!event.repeat) holdPan(true);
        return;
      }
      if (boardKey(event, now, keysRef.current.cancel)) {
        event.preventDefault();
        event.stopPropagation();
      }
    },
    [holdPan],
  );

  useDrawingEnds(selection);

  const onSheet = useCallback(
    (at: Vec3): Vec2 | null => {
      const box = root.current?.getBoundingClientRect();
      const plan = sceneRef.current && viewsOf(sceneRef.current).find(({ name }) => name === 'plan');
      if (!box || !plan) return null;
      const [x, y] = toScreen(plan.t, project(plan.frame, at));
      return x < 0 || y < 0 || x > box.width || y > box.height ? null : [x + box.left, y + box.top];
    },
    [root],
  );

  const pictures = useRef<FieldPictures>(undefined);
  pictures.current ??= new FieldPictures();
  const { moving } = control;
  const still = useCallback(
    (ctx: Konva.Context) => {
      if (moving) pictures.current?.paintMoving(ctx._context, scene, notes, ratio);
      else paintStill(ctx._context, scene, notes);
    },
    [scene, notes, moving, ratio],
  );

  return (
    <>
      <div aria-hidden="true" style={{ position: 'absolute', inset: 0, cursor }}>
        <Stage key={ratio} ref={(stage) => sharpen(stage, ratio)} width={width} height={height} listening={false}>
          <Layer listening={false}>
            <Shape sceneFunc={still} perfectDrawEnabled={false} />
          </Layer>
          <LiveLayer scene={scene} notes={notes} focused={focused} />
        </Stage>
      </div>
      <BoardList
        options={options}
        selection={selection}
        alsoSelected={alsoSelected}
        listRef={list}
        onKeyDown={onKeyDown}
        onKeyUp={onKeyUp}
        onFocusChange={setFocused}
      />
      <DrawingBar sceneRef={sceneRef} />
      <PullBar />
      <JoinBar />
      <PickedBar />
      <Hints onSheet={onSheet} />
    </>
  );
}

/** One canvas pixel for each device pixel, also after the window went to another screen. */
function sharpen(stage: Konva.Stage | null, ratio: number): void {
  for (const layer of stage?.getLayers() ?? []) {
    if (layer.getCanvas().getPixelRatio() === ratio) continue;
    layer.getCanvas().setPixelRatio(ratio);
    layer.batchDraw();
  }
}

/** Without a hull the sheet keeps its scale while it holds all that is drawn; another boat begins afresh. */
function useKeptExtent(extent: Extent, isBounded: boolean): Extent {
  const opened = useApp((s) => s.document.fileName);
  const kept = useRef<{ extent: Extent; opened: string } | null>(null);
  const before = !isBounded && kept.current?.opened === opened ? kept.current.extent : null;
  const next = keptExtent(before, extent);
  kept.current = { extent: next, opened };
  return next;
}

/** Another tool puts down what was being drawn; another selection, the face in hand. */
function useDrawingEnds(selection: Selection | null): void {
  const tool = useApp((s) => s.tool);
  useEffect(() => {
    if (tool) dropDrawing();
  }, [tool]);
  const inHand = selection?.kind === 'compartment' ? selection.id : null;
  useEffect(() => {
    const { grip } = useDrawing.getState();
    if (grip && (!('compartment' in grip) || grip.compartment !== inHand)) useDrawing.setState({ grip: null });
  }, [inHand]);
}

/** What the drag layer draws in place of the layers below: the held thing and the runs that it changed. */
function useLifted(): Scene['lifted'] {
  const things = useDrag((s) => (s.thingId === null ? '' : [s.thingId, ...Object.keys(s.along)].join(' ')));
  // Joined to a word, so that a step that changes the same runs again wakes nobody.
  const runs = useDrag((s) => Object.keys(s.runs).sort().join(' '));
  return useMemo(() => ({ things: setOf(things), runs: setOf(runs) }), [things, runs]);
}

const setOf = (words: string): ReadonlySet<string> => new Set(words === '' ? [] : words.split(' '));

/** True for a moment after a value changed: it is being dragged. */
function useRecentlyChanged(value: number): boolean {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), 140);
    return () => clearTimeout(timer);
  }, [value]);
  return settled !== value;
}

const NO_NOTES: Annotations = { words: [], findings: [], balloons: [], zones: new Map() };

/** Words and marks are placed when the drawing has come to rest: one pass a settle, not a frame. The first drawing stands before its words do. */
function useNotes(scene: Scene, moving: boolean): Annotations {
  const isDrawn = useDeferredValue(true, false);
  const still = moving || scene.lifted.things.size > 0;
  const last = useRef<Annotations | null>(null);
  const fresh = useMemo(() => (isDrawn && !(still && last.current) ? annotate(scene) : null), [scene, still, isDrawn]);
  if (fresh) last.current = fresh;
  const notes = fresh ?? last.current ?? NO_NOTES;
  useEffect(() => useZones.getState().setZones(notes.zones), [notes]);
  return notes;
}

/** The section goes to what is picked, unless it cuts it already. */
function useFollowingSection({ selection, placed, lifted }: Scene): void {
  const id = selection?.kind === 'thing' ? selection.id : null;
  const picked = id !== null && lifted.things.size === 0 ? placed.find((p) => p.id === id) : undefined;
  useEffect(() => {
    if (!picked) return;
    const { low, high } = boxOf(picked);
    const { sectionX, setSectionX } = useApp.getState();
    if (sectionX < low[0] || sectionX > high[0]) setSectionX(picked.pose.at[0]);
  }, [picked]);
}
