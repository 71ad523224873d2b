import type { Vec2 } from '@core/base/vec';
import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import { useApp } from '../store/app';
import { chosenThings, pickMore, pickTogether } from '../store/chosen';
import { useCursor } from '../store/cursor';
import { useDrag } from '../store/drag';
import { useDrawing } from '../store/drawing';
import {
  beginJoin,
  beginMoveEnd,
  dropJoin,
  finishJoin,
  joinOver,
  samePort,
  useJoining,
  useJoinPointer,
} from '../store/joining';
import { usePlacing } from '../store/placing';
import { chosenOf, sameSelection } from '../store/select';
import type { FieldView } from '../store/types';
import {
  type Effect,
  type Gesture,
  IDLE,
  type Input,
  type Shaping,
  SLOP_PX,
  step,
  type Target,
} from '../tools/gesture';
import { faceGrips } from '../tools/grips';
import type { Annotations } from './annotate';
import { panned, wheelFactor, zoomedAbout } from './camera';
import { heldAt, letGo } from './drawing/hold';
import { lookingOn } from './drawing/looking';
import { dropDrawing } from './drawing/marking';
import { drawsWith, type ToolPoint, toolDown, toolMove, toolUp } from './drawing/tool-pointing';
import { focusOf } from './focus';
import { heldNow, liveOf, placeAfter } from './live';
import { pointUnder } from './paint/overlay';
import { areasOf, inBox, portUnder, scaleOf, transformOfView, under } from './pointing';
import { pulledFrom, pullTo } from './pulling';
import { type Scene, viewsOf } from './scene';
import { fieldAt, toPaper } from './sheet';
import type { CameraControl } from './use-camera';

interface Pointing {
  /** CSS cursor of the board. */
  readonly cursor: string;
  /** Gives up what is under way; false when nothing was. */
  cancel(): boolean;
  /** While held, a drag pans. */
  holdPan(held: boolean): void;
}

/** Turns pointer and wheel into the effects of the gesture machine, at most one step a frame. */
export function usePointing(
  root: RefObject<HTMLDivElement | null>,
  sceneRef: RefObject<Scene | null>,
  notesRef: RefObject<Annotations>,
  control: CameraControl,
  focusList: () => void,
): Pointing {
  const gesture = useRef<Gesture>(IDLE);
  const pan = useRef(false);
  const free = useRef(false);
  /** Where a drawing tool was pressed. */
  const press = useRef<Vec2 | null>(null);
  const pending = useRef<{ at: Vec2; frame: number } | null>(null);
  const [cursor, setCursor] = useState('default');
  const controlRef = useRef(control);
  controlRef.current = control;

  const joinTo = useCallback(
    (at: Vec2) => {
      const scene = sceneRef.current;
      if (!scene) return;
      const live = liveOf(scene, heldNow());
      joinOver(portUnder(scene, live, notesRef.current, focusOf(scene, live), at));
      useJoinPointer.setState({ at });
    },
    [sceneRef, notesRef],
  );

  const apply = useCallback(
    (effect: Effect) => {
      const scene = sceneRef.current;
      if (!scene) return;
      const app = useApp.getState();
      const drag = useDrag.getState();
      switch (effect.do) {
        case 'select':
          if (scene.tinting && effect.selection?.kind !== 'thing') {
            if (effect.selection) usePlacing.getState().choose(effect.selection.id);
          } else if (effect.selection === null) app.select(null);
          else if (!sameSelection(app.selection, effect.selection) || app.alsoSelected.length > 0)
            pickTogether(effect.selection);
          return;
        case 'toggle':
          pickTogether(effect.selection, true);
          return;
        case 'front':
          app.select(effect.selection, chosenOf(app));
          return;
        case 'box':
          useDrawing.setState({ box: { from: effect.from, to: effect.to } });
          return;
        case 'endBox': {
          const { box } = useDrawing.getState();
          useDrawing.setState({ box: null });
          if (box && effect.how === 'commit') pickMore(inBox(scene, box.from, box.to, app.stage));
          return;
        }
        case 'activate':
          // Work in the detail goes along the axes of the view that it enlarges.
          if (effect.view !== 'detail' && effect.view !== app.activeView) app.setActiveView(effect.view);
          return;
        case 'startDrag':
          drag.startDrag(effect.thing, chosenThings());
          return;
        case 'moveTo': {
          const placed = scene.placed.find((p) => p.id === effect.thing);
          if (!placed || !drag.start) return;
          const focus = effect.view === 'detail' ? focusOf(scene, liveOf(scene, heldNow())) : null;
          const scale = scaleOf(scene, effect.view, focus);
          const place = placeAfter(scene, drag.start, placed, effect.view, effect.by, scale, free.current);
          const before = drag.place ?? drag.start;
          if (place.at.some((value, k) => value !== before.at[k])) drag.updateDrag(place);
          return;
        }
        case 'endDrag':
          drag.endDrag(effect.how);
          return;
        case 'startPull': {
          const pulled = pulledFrom(scene, effect.what, effect.view, effect.from);
          if (pulled) drag.startPull(pulled);
          return;
        }
        case 'pullTo': {
          const { pulled } = drag;
          if (pulled) pullTo(scene, pulled, effect.view, effect.by);
          return;
        }
        case 'shape': {
          const looking = lookingOn(scene, effect.view, shapingFocus(scene));
          if (!looking) return;
          const [from, to] = [effect.from, effect.at].map((p) => toPaper(looking.t, p)) as [Vec2, Vec2];
          const held = heldAt(scene, looking, effect.what, from, to, free.current);
          // Where it can't go it stays as it was last.
          if (held) useDrawing.setState({ held });
          return;
        }
        case 'endShape':
          letGo(effect.how, app.edit);
          return;
        case 'grip': {
          const { grip } = useDrawing.getState();
          if (sameShaping(grip, effect.what) && effect.under) app.select(effect.under);
          else useDrawing.setState({ grip: effect.what });
          return;
        }
        case 'joinFrom': {
          const { thing, port, line } = effect.port;
          if (line) beginMoveEnd(line.id, line.end);
          else beginJoin({ thing, port });
          return;
        }
        case 'joinTo':
          joinTo(effect.at);
          return;
        case 'endJoin':
          useJoinPointer.setState({ at: null });
          if (effect.at === null) dropJoin();
          else {
            joinTo(effect.at);
            if (useJoining.getState().over === null || !finishJoin()) dropJoin();
          }
          return;
        case 'pan':
          if (effect.view === 'detail') return;
          controlRef.current.change((camera) =>
            panned(camera, effect.view as Exclude<FieldView, 'detail'>, ...effect.by),
          );
          return;
        case 'cutAt': {
          const t = transformOfView(scene, effect.view, null);
          if (t) app.setSectionX(Math.round(toPaper(t, effect.at)[0] * 100) / 100);
        }
      }
    },
    [sceneRef, joinTo],
  );

  const feed = useCallback(
    (input: Input) => {
      const next = step(gesture.current, input);
      gesture.current = next.gesture;
      for (const effect of next.effects) apply(effect);
    },
    [apply],
  );

  const cancel = useCallback(() => {
    const drawing = press.current !== null;
    press.current = null;
    const busy = gesture.current.state !== 'idle' || drawing;
    if (pending.current) cancelAnimationFrame(pending.current.frame);
    pending.current = null;
    feed({ type: 'cancel' });
    const joining = dropJoin();
    return dropDrawing() || joining || busy;
  }, [feed]);

  useEffect(() => {
    const element = root.current;
    if (!element) return;
    const place = (event: MouseEvent): Vec2 => {
      const box = element.getBoundingClientRect();
      return [event.clientX - box.left, event.clientY - box.top];
    };
    const look = (at: Vec2, adding = false) => {
      const scene = sceneRef.current;
      if (!scene) return null;
      const live = liveOf(scene, heldNow());
      const interiorFirst = useApp.getState().stage === 'compartments';
      return under(scene, live, notesRef.current, focusOf(scene, live), at, interiorFirst, adding);
    };
    const toolPoint = (scene: Scene, at: Vec2): ToolPoint | null => {
      const view = fieldAt(scene.sheet, at);
      const focus = view === 'detail' ? shapingFocus(scene) : null;
      const looking = view ? lookingOn(scene, view, focus) : null;
      if (!view || !looking) return null;
      return { looking, at, areas: () => areasOf(scene, view, focus), free: free.current };
    };
    const down = (event: PointerEvent) => {
      if (event.button !== 0 && event.button !== 1) return;
      const at = place(event);
      const adding = event.shiftKey || event.ctrlKey || event.metaKey;
      const here = look(at, adding);
      if (!here) return;
      event.preventDefault();
      focusList();
      element.setPointerCapture(event.pointerId);
      free.current = event.altKey;
      const { tool } = useApp.getState();
      const cuts = tool === 'section' && (here.view === 'plan' || here.view === 'profile');
      const target: Target = cuts ? { kind: 'cutMark' } : here.target;
      const pans = event.button === 1 || pan.current || tool === 'pan';
      const scene = sceneRef.current;
      if (!pans && tool === 'join') {
        if (here.view !== 'detail') useApp.getState().setActiveView(here.view);
        press.current = at;
        joinTo(at);
        const { from, over } = useJoining.getState();
        if (from === null && over) beginJoin(over);
        else if (from !== null && over && !samePort(from, over)) finishJoin();
        return;
      }
      if (!pans && drawsWith(tool) && scene) {
        if (here.view !== 'detail') useApp.getState().setActiveView(here.view);
        const point = toolPoint(scene, at);
        press.current = at;
        if (point) toolDown(scene, point);
        return;
      }
      feed({ type: 'down', at, view: here.view, target, pan: pans, adding });
      // The section tool takes the plane to the press itself, not only along a drag.
      if (cuts) feed({ type: 'move', at });
    };
    const flush = () => {
      const wait = pending.current;
      if (!wait) return;
      cancelAnimationFrame(wait.frame);
      pending.current = null;
      const scene = sceneRef.current;
      const drawing = drawsWith(useApp.getState().tool) && !pan.current;
      if (gesture.current.state === 'idle' && useApp.getState().tool === 'join' && !pan.current) {
        joinTo(wait.at);
        setCursor(useJoining.getState().over ? 'pointer' : 'crosshair');
      } else if (gesture.current.state === 'idle' && drawing && scene) {
        const point = toolPoint(scene, wait.at);
        if (point) toolMove(scene, point);
        setCursor('crosshair');
        if (useApp.getState().hover) useApp.getState().setHover(null);
        const view = viewsOf(scene).find((v) => v.name === fieldAt(scene.sheet, wait.at));
        useCursor.getState().setCursor(view ? pointUnder(view, wait.at) : null);
      } else if (gesture.current.state === 'idle') hover(wait.at);
      else feed({ type: 'move', at: wait.at });
    };
    const hover = (at: Vec2) => {
      const scene = sceneRef.current;
      if (!scene) return;
      const here = look(at);
      const app = useApp.getState();
      const target: typeof app.hover =
        here?.target.kind === 'cutMark'
          ? { kind: 'station', id: 'A' }
          : here?.target.kind === 'ground' && (app.stage === 'compartments' || scene.tinting)
            ? here.target.under
            : (here?.selection ?? null);
      if (!sameSelection(app.hover, target)) app.setHover(target);
      setCursor(
        pan.current
          ? 'grab'
          : here?.target.kind === 'grip'
            ? cursorOf(scene, here.view, here.target.what)
            : here?.target.kind === 'port'
              ? 'crosshair'
              : here?.target.kind === 'cutMark'
                ? 'ew-resize'
                : here?.target.kind === 'selectable'
                  ? here.target.movable
                    ? 'move'
                    : 'pointer'
                  : scene.tinting && target?.kind === 'compartment'
                    ? 'pointer'
                    : 'default',
      );
      const view = viewsOf(scene).find((v) => v.name === fieldAt(scene.sheet, at));
      useCursor.getState().setCursor(view ? pointUnder(view, at) : null);
    };
    const move = (event: PointerEvent) => {
      const at = place(event);
      free.current = event.altKey;
      // Several events fall into one frame; the drawing can show only the last.
      if (pending.current) pending.current.at = at;
      else pending.current = { at, frame: requestAnimationFrame(flush) };
    };
    const up = (event: PointerEvent) => {
      flush();
      const from = press.current;
      const scene = sceneRef.current;
      if (from && scene) {
        press.current = null;
        const at = place(event);
        if (useApp.getState().tool === 'join') {
          joinTo(at);
          const { from: begun, over } = useJoining.getState();
          // A drag from port to port joins where it ends; a click leaves the first port chosen.
          if (begun && over && !samePort(begun, over)) finishJoin();
          return;
        }
        const point = toolPoint(scene, at);
        if (point) toolUp(scene, point, Math.hypot(at[0] - from[0], at[1] - from[1]) >= SLOP_PX);
        return;
      }
      feed({ type: 'up', at: place(event) });
    };
    const leave = () => {
      if (gesture.current.state !== 'idle') return;
      useApp.getState().setHover(null);
      useCursor.getState().setCursor(null);
    };
    // A click takes what stays together; a double click one of it.
    const alone = (event: MouseEvent) => {
      const { tool, select } = useApp.getState();
      const here = tool === 'select' ? look(place(event)) : null;
      if (here?.selection?.kind === 'thing') select(here.selection);
    };
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const scene = sceneRef.current;
      if (!scene) return;
      const at = place(event);
      const view = fieldAt(scene.sheet, at);
      if (!view || view === 'detail') return;
      const factor = wheelFactor(event);
      controlRef.current.change((camera) => zoomedAbout(scene.sheet, camera, view, at, factor));
    };
    element.addEventListener('pointerdown', down);
    element.addEventListener('pointermove', move);
    element.addEventListener('pointerup', up);
    element.addEventListener('pointercancel', cancel);
    element.addEventListener('pointerleave', leave);
    element.addEventListener('dblclick', alone);
    element.addEventListener('wheel', wheel, { passive: false });
    return () => {
      element.removeEventListener('pointerdown', down);
      element.removeEventListener('pointermove', move);
      element.removeEventListener('pointerup', up);
      element.removeEventListener('pointercancel', cancel);
      element.removeEventListener('pointerleave', leave);
      element.removeEventListener('dblclick', alone);
      element.removeEventListener('wheel', wheel);
    };
  }, [root, sceneRef, notesRef, feed, cancel, focusList, joinTo]);

  const holdPan = useCallback((held: boolean) => {
    pan.current = held;
    setCursor(held ? 'grab' : 'default');
  }, []);
  return { cursor, cancel, holdPan };
}

/** What the detail shows now. */
const shapingFocus = (scene: Scene) => focusOf(scene, liveOf(scene, heldNow()));

const sameShaping = (a: Shaping | null, b: Shaping): boolean => JSON.stringify(a) === JSON.stringify(b);

/** A face moves square to itself, so the cursor shows its two ways. */
function cursorOf(scene: Scene, view: FieldView, what: Shaping): string {
  if (what.kind !== 'face') return 'move';
  const own = scene.boat.compartments[what.compartment];
  const looking = lookingOn(scene, view, shapingFocus(scene));
  const grip = own && looking ? faceGrips(own, looking.frame).find(({ key }) => key === what.key) : undefined;
  if (!grip) return 'move';
  const [u, v] = [Math.abs(grip.normal[0]), Math.abs(grip.normal[1])];
  if (u > 0.92) return 'ew-resize';
  if (v > 0.92) return 'ns-resize';
  return grip.normal[0] * grip.normal[1] > 0 ? 'nesw-resize' : 'nwse-resize';
}
