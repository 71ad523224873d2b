import { AXES, type Vec2 } from '@core/base/vec';
import { AXES_OF_VIEW } from '@core/boat/interior/placing';
import { FRAMES, project, type ViewName } from '@core/output/views/drawing';
import { type JSX, type RefObject, useEffect, useRef, useState } from 'react';
import { CommandButton } from '../../app/CommandButton';
import { LengthField } from '../../panels/fields/LengthField';
import { readSizes } from '../../panels/fields/sizes';
import { Choice } from '../../panels/inspector/parts';
import { useApp } from '../../store/app';
import { useDrawing } from '../../store/drawing';
import type { FieldView, Tool } from '../../store/types';
import type { DrawingTool } from '../../tools/drawing';
import { measureWords } from '../measuring/measure-words';
import type { Scene } from '../scene';
import { inView } from './make';
import { dropDrawing } from './marking';
import { rangeFor } from './range';
import { drawsWith, feed } from './tool-pointing';

const VIEWS: readonly (readonly [ViewName, string])[] = [
  ['plan', 'Plan'],
  ['profile', 'Profile'],
  ['section', 'Section'],
];

const WORDS: Readonly<Partial<Record<Tool, readonly [string, string]>>> = {
  rectangle: ['Rectangle', 'Drag, or click two corners. Alt: no snapping.'],
  polygon: ['Corner by corner', 'Click corners. Enter or the first corner closes, Backspace takes one back.'],
  split: ['Split', 'Draw a line across the compartment, from side to side.'],
  measure: ['Measure', 'Drag, or click from point to point; Enter ends. F: to the faces around.'],
  opening: ['Opening', 'Drag along a side, or across a lid. A click makes the usual size.'],
  surface: ['Mounting surface', 'Drag along a side, or across a face seen from the front.'],
  hole: ['Hole', 'Click a panel where the hole is.'],
  standing: ['Standing place', 'Click where a person stands or kneels.'],
};

const isByPoints = (tool: Tool): tool is DrawingTool =>
  tool === 'rectangle' || tool === 'polygon' || tool === 'split' || tool === 'measure';

/** What the tool in hand wants, and its numbers typed: points, sizes, the range across the view. All that the pointer can do. */
export function DrawingBar({ sceneRef }: { readonly sceneRef: RefObject<Scene | null> }): JSX.Element | null {
  const tool = useApp((s) => s.tool);
  const setTool = useApp((s) => s.setTool);
  const activeView = useApp((s) => s.activeView);
  const words = WORDS[tool];
  if (!words || !drawsWith(tool)) return null;
  const done = (): void => {
    dropDrawing();
    setTool('select');
  };
  return (
    <section
      className="drawing-bar"
      aria-label={`${words[0]} tool`}
      data-testid="drawing-bar"
      onKeyDown={(event) => {
        if (event.key === 'Escape') done();
      }}
    >
      <div className="drawing-hint">
        <p>
          <b className="drawing-word">{words[0]}</b> {words[1]}
        </p>
        <button type="button" className="button plain" onClick={done}>
          Done
        </button>
      </div>
      {isByPoints(tool) ? (
        <div className="drawing-numbers">
          <Points key={`${tool} ${activeView}`} tool={tool} sceneRef={sceneRef} />
        </div>
      ) : null}
    </section>
  );
}

const viewOf = (view: FieldView): ViewName => (view === 'detail' ? 'plan' : view);

function Points({
  tool,
  sceneRef,
}: {
  readonly tool: DrawingTool;
  readonly sceneRef: RefObject<Scene | null>;
}): JSX.Element {
  const setActiveView = useApp((s) => s.setActiveView);
  const activeView = useApp((s) => viewOf(s.activeView));
  const draft = useDrawing((s) => s.draft);
  const first = useRef<HTMLDivElement>(null);
  const [point, setPoint] = useState<readonly [number | null, number | null]>([null, null]);
  const view = draft?.view ?? activeView;
  const axes = AXES_OF_VIEW[view];

  const set = (): void => {
    const scene = sceneRef.current;
    const [u, v] = point;
    if (!scene || u === null || v === null) return;
    const at = onPaper(view, u, v);
    feed(scene, tool, { type: 'down', at, view, typed: true }, scene.camera.scale);
    feed(scene, tool, { type: 'up', at, moved: false }, scene.camera.scale);
    setPoint([null, null]);
    first.current?.querySelector('input')?.focus();
  };

  return (
    <>
      <Choice label="View to draw in" value={view} options={VIEWS} choose={setActiveView} />
      <div className="drawing-point" ref={first}>
        {([0, 1] as const).map((k) => (
          <span className="drawing-field" key={k}>
            <span>{AXES[axes[k]]}</span>
            <LengthField
              label={`${AXES[axes[k]]} of the next point`}
              value={point[k]}
              placeholder={draft ? '' : 'pointer'}
              commit={(value) => setPoint(k === 0 ? [value, point[1]] : [point[0], value])}
            />
          </span>
        ))}
        <button
          type="button"
          className="button"
          aria-label="Set the point"
          disabled={point.includes(null)}
          onClick={set}
        >
          Set
        </button>
      </div>
      {draft && tool !== 'measure' && tool !== 'split' ? <Size tool={tool} sceneRef={sceneRef} /> : null}
      {tool === 'rectangle' || tool === 'polygon' ? <RangeFields view={view} sceneRef={sceneRef} /> : null}
      {draft && tool === 'polygon' ? (
        <button
          type="button"
          className="button"
          disabled={draft.points.length < 3}
          onClick={() => {
            const scene = sceneRef.current;
            if (scene) feed(scene, tool, { type: 'close' }, scene.camera.scale);
          }}
        >
          Close
        </button>
      ) : null}
      {tool === 'measure' ? <Tape sceneRef={sceneRef} /> : null}
    </>
  );
}

/** Values of an outline to the paper of its view. */
function onPaper(view: ViewName, u: number, v: number): Vec2 {
  const p: [number, number, number] = [0, 0, 0];
  const [iu, iv] = AXES_OF_VIEW[view];
  p[iu] = u;
  p[iv] = v;
  return project(FRAMES[view], p);
}

/** The size of what is being drawn, typed: digits that are pressed on the drawing come here. */
function Size({
  tool,
  sceneRef,
}: {
  readonly tool: DrawingTool;
  readonly sceneRef: RefObject<Scene | null>;
}): JSX.Element {
  const units = useApp((s) => s.displayUnits);
  const [typed, setTyped] = useState('');
  const [message, setMessage] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    const list = document.getElementById('board-list');
    const onKey = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.metaKey || event.altKey || !/^[\d.,]$/.test(event.key)) return;
      event.preventDefault();
      event.stopPropagation();
      setTyped((before) => before + event.key);
      field.current?.focus();
    };
    list?.addEventListener('keydown', onKey, true);
    return () => list?.removeEventListener('keydown', onKey, true);
  }, []);
  const enter = (): void => {
    const scene = sceneRef.current;
    const read = readSizes(typed, units);
    if (!read.ok) setMessage(read.message);
    else if (scene) {
      const [a, b] = read.sizes as readonly [number, number | undefined];
      if (b === undefined && tool === 'rectangle') {
        setMessage('Expected two lengths, as in 450 x 300');
        return;
      }
      setTyped('');
      setMessage(null);
      feed(scene, tool, { type: 'typed', size: b === undefined ? a : [a, b] }, scene.camera.scale);
      document.getElementById('board-list')?.focus({ preventScroll: true });
    }
  };
  return (
    <label className="drawing-size">
      <span>{tool === 'rectangle' ? 'Size' : 'Next side'}</span>
      <div className={message === null ? 'field' : 'field invalid'}>
        <input
          ref={field}
          aria-label={tool === 'rectangle' ? 'Size, right by up' : 'Length of the next side, or right by up'}
          aria-invalid={message !== null}
          placeholder="450 x 300"
          autoComplete="off"
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') enter();
          }}
        />
      </div>
      {message === null ? null : (
        <span className="field-error" role="alert">
          {message}
        </span>
      )}
    </label>
  );
}

/** How far the compartment reaches across the view, before it is drawn. */
function RangeFields({
  view,
  sceneRef,
}: {
  readonly view: ViewName;
  readonly sceneRef: RefObject<Scene | null>;
}): JSX.Element | null {
  const proposed = useDrawing((s) => s.proposed);
  const typed = useDrawing((s) => s.typed[view]);
  const scene = sceneRef.current;
  const shown =
    typed !== undefined
      ? { rangeM: typed, from: 'entered' }
      : proposed?.view === view
        ? proposed
        : scene
          ? rangeFor(scene, view, [project(FRAMES[view], scene.camera.at)])
          : null;
  if (!shown) return null;
  const axis = AXES[AXES_OF_VIEW[view][2]];
  const set = (end: 0 | 1, value: number): void => {
    const next: [number, number] = [shown.rangeM[0], shown.rangeM[1]];
    next[end] = value;
    if (next[0] >= next[1]) {
      useApp.getState().notify(`${axis} from must be below ${axis} to`);
      return;
    }
    useDrawing.setState((state) => ({ typed: { ...state.typed, [view]: next } }));
  };
  return (
    <div className="drawing-range">
      {([0, 1] as const).map((end) => (
        <span className="drawing-field" key={end}>
          <span>{end === 0 ? `${axis} from` : 'to'}</span>
          <LengthField
            label={`${axis} ${end === 0 ? 'from' : 'to'} of the new compartment`}
            value={shown.rangeM[end]}
            commit={(value) => set(end, value)}
          />
        </span>
      ))}
      <span className="quiet">{shown.from}</span>
    </div>
  );
}

/** What is being measured, else what was measured last; and what ends and clears it. */
function Tape({ sceneRef }: { readonly sceneRef: RefObject<Scene | null> }): JSX.Element {
  const draft = useDrawing((s) => s.draft);
  const last = useDrawing((s) => s.measures.at(-1));
  const units = useApp((s) => s.displayUnits);
  const scene = sceneRef.current;
  const points = draft && scene ? [...draft.points, draft.to].map((p) => inView(scene, draft.view, p)) : null;
  const shown = draft && points ? { view: draft.view, points } : last;
  return (
    <>
      <output className="drawing-reading" aria-live="polite">
        <b>{shown ? measureWords(shown, units) : ''}</b>
      </output>
      {draft && draft.points.length > 1 ? (
        <button
          type="button"
          className="button"
          onClick={() => {
            if (scene) feed(scene, 'measure', { type: 'close' }, scene.camera.scale);
          }}
        >
          End
        </button>
      ) : null}
      <CommandButton id="measure-faces">To the faces</CommandButton>
      <CommandButton id="measure-clear">Clear</CommandButton>
    </>
  );
}
