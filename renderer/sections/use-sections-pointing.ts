import type { Vec2 } from '@core/base/vec';
import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import { wheelFactor } from '../board/camera';

import { toPaper, within } from '../board/sheet';
import { useApp } from '../store/app';
import { useCursor } from '../store/cursor';
import { addPointAt, giveUpPoint, holdPoint, pickPoint, pickStation, releasePoint } from './actions';
import { AT_REST, type SectionEffect, type SectionGesture, type SectionInput, sectionStep } from './gesture';
import { profileTransform } from './paint/strips';
import { targetAt } from './pick';
import type { SectionScene } from './scene';
import { type BodyCamera, bodyTransform } from './sheet';

const CLOSEST = 2500;
const FURTHEST = 15;

/** Turns pointer and wheel on the section board into effects, at most one step a frame. */
export function useSectionsPointing(
  root: RefObject<HTMLElement | null>,
  sceneRef: RefObject<SectionScene | null>,
  setCamera: (change: (camera: BodyCamera) => BodyCamera) => void,
  focusTable: () => void,
): string {
  const gesture = useRef<SectionGesture>(AT_REST);
  const pending = useRef<{ at: Vec2; frame: number } | null>(null);
  const [cursor, setCursor] = useState('default');

  const apply = useCallback(
    (effect: SectionEffect) => {
      const scene = sceneRef.current;
      if (!scene) return;
      switch (effect.do) {
        case 'pickStation':
          pickStation(effect.station);
          return;
        case 'pickPoint':
          pickPoint(effect.station, effect.index);
          return;
        case 'holdPoint': {
          const side = scene.active.line.end === 'aft' ? -1 : 1;
          const millimetre = (pixels: number) => Math.round((pixels / scene.camera.scale) * 1000) / 1000;
          holdPoint(effect.index, [side * millimetre(effect.by[0]), -millimetre(effect.by[1])]);
          return;
        }
        case 'release':
          releasePoint();
          return;
        case 'giveUp':
          giveUpPoint();
          return;
        case 'addPoint': {
          const [u, v] = toPaper(bodyTransform(scene.sheet.body, scene.camera), effect.at);
          addPointAt(effect.station, [Math.round(Math.abs(u) * 1000) / 1000, Math.round(v * 1000) / 1000]);
          return;
        }
        case 'pan':
          setCamera((camera) => ({
            ...camera,
            at: [camera.at[0] - effect.by[0] / camera.scale, camera.at[1] + effect.by[1] / camera.scale],
          }));
      }
    },
    [sceneRef, setCamera],
  );

  useEffect(() => {
    const element = root.current;
    if (!element) return;
    const feed = (input: SectionInput) => {
      const next = sectionStep(gesture.current, input);
      gesture.current = next.gesture;
      for (const effect of next.effects) apply(effect);
    };
    const place = (event: MouseEvent): Vec2 => {
      const box = element.getBoundingClientRect();
      return [event.clientX - box.left, event.clientY - box.top];
    };
    const look = (at: Vec2) => (sceneRef.current ? targetAt(sceneRef.current, at) : null);
    const down = (event: PointerEvent) => {
      if (event.button !== 0 && event.button !== 1) return;
      const at = place(event);
      const target = look(at);
      if (!target) return;
      event.preventDefault();
      element.setPointerCapture(event.pointerId);
      const pan = event.button === 1 || useApp.getState().tool === 'pan';
      feed({ type: 'down', at, target, pan });
      if (target.kind !== 'ground') focusTable();
    };
    const flush = () => {
      const wait = pending.current;
      if (!wait) return;
      cancelAnimationFrame(wait.frame);
      pending.current = null;
      if (gesture.current.state === 'idle') hover(wait.at);
      else feed({ type: 'move', at: wait.at });
    };
    const hover = (at: Vec2) => {
      const scene = sceneRef.current;
      const target = look(at);
      if (!scene || !target) return;
      setCursor(target.kind === 'point' ? 'move' : target.kind === 'ground' ? 'default' : 'pointer');
      useCursor.getState().setCursor(pointUnder(scene, at));
    };
    const move = (event: PointerEvent) => {
      const at = place(event);
      // Several events fall into one frame; the drawing can show only the last.
      if (pending.current) pending.current.at = at;
      else pending.current = { at, frame: requestAnimationFrame(flush) };
    };
    const up = () => {
      flush();
      feed({ type: 'up' });
    };
    const cancel = () => {
      if (pending.current) cancelAnimationFrame(pending.current.frame);
      pending.current = null;
      feed({ type: 'cancel' });
    };
    const double = (event: MouseEvent) => {
      const at = place(event);
      const target = look(at);
      if (target) feed({ type: 'double', at, target });
    };
    const onEscape = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || gesture.current.state === 'idle') return;
      event.preventDefault();
      event.stopPropagation();
      cancel();
    };
    const leave = () => useCursor.getState().setCursor(null);
    const wheel = (event: WheelEvent) => {
      const scene = sceneRef.current;
      const at = place(event);
      if (!scene || !within(scene.sheet.body, at)) return;
      event.preventDefault();
      const factor = wheelFactor(event);
      setCamera((camera) => zoomedAbout(scene, camera, at, factor));
    };
    element.addEventListener('pointerdown', down);
    element.addEventListener('pointermove', move);
    element.addEventListener('pointerup', up);
    element.addEventListener('pointercancel', cancel);
    element.addEventListener('pointerleave', leave);
    element.addEventListener('dblclick', double);
    element.addEventListener('wheel', wheel, { passive: false });
    window.addEventListener('keydown', onEscape, true);
    return () => {
      element.removeEventListener('pointerdown', down);
      element.removeEventListener('pointermove', move);
      element.removeEventListener('pointerup', up);
      element.removeEventListener('pointercancel', cancel);
      element.removeEventListener('pointerleave', leave);
      element.removeEventListener('dblclick', double);
      element.removeEventListener('wheel', wheel);
      window.removeEventListener('keydown', onEscape, true);
      cancel();
    };
  }, [root, sceneRef, apply, setCamera, focusTable]);

  return cursor;
}

/** Keeps the paper point under the pointer where it is. */
function zoomedAbout(scene: SectionScene, camera: BodyCamera, at: Vec2, factor: number): BodyCamera {
  const before = toPaper(bodyTransform(scene.sheet.body, camera), at);
  const next = { ...camera, scale: Math.min(CLOSEST, Math.max(FURTHEST, camera.scale * factor)) };
  const after = toPaper(bodyTransform(scene.sheet.body, next), at);
  return { ...next, at: [next.at[0] + before[0] - after[0], next.at[1] + before[1] - after[1]] };
}

/** The point of the boat under the pointer, for the title block: on the body plan the half-breadth counts as y. */
function pointUnder(scene: SectionScene, at: Vec2): readonly [number | null, number | null, number | null] | null {
  const { sheet } = scene;
  if (within(sheet.body, at)) {
    const [u, v] = toPaper(bodyTransform(sheet.body, scene.camera), at);
    return [null, Math.abs(u), v];
  }
  if (within(sheet.profile, at)) {
    const [u, v] = toPaper(profileTransform(scene), at);
    return [u, null, v];
  }
  return null;
}
