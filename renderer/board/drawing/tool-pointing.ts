import type { Vec2 } from '@core/base/vec';
import { faceOfKey } from '@core/boat/interior/faces';
import { depthAxis, type ViewFrame } from '@core/output/views/drawing';
import { useApp } from '../../store/app';
import { type Marking, NOTHING_DRAWN, useDrawing } from '../../store/drawing';
import type { Tool } from '../../store/types';
import { type DrawingInput, type DrawingTool, drawingStep } from '../../tools/drawing';
import { type SnapField, type SnapLine, snapPoint } from '../../tools/point-snap';
import { PULL_PX } from '../../tools/snap';
import type { PickArea } from '../pick';
import { type Scene, thingsIn, viewsOf } from '../scene';
import { toPaper } from '../sheet';
import { linesOfThing } from '../things';
import { pullOf, snapFieldOf } from './field';
import type { LookingOn } from './looking';
import { make } from './make';
import { faceUnder, makeHole, makeMarked, makeStanding, marking, panelUnder, pointOnFace } from './marking';
import { rangeFor } from './range';

/** What a press with a tool is told: the field, the point on screen, the compartments there, and whether snapping is off. */
export interface ToolPoint {
  readonly looking: LookingOn;
  readonly at: Vec2;
  areas(): readonly PickArea[];
  readonly free: boolean;
}

const isDrawing = (tool: Tool): tool is DrawingTool =>
  tool === 'rectangle' || tool === 'polygon' || tool === 'split' || tool === 'measure';
const isMarking = (tool: Tool): tool is Marking['what'] => tool === 'opening' || tool === 'surface';

/** Tools that draw take the press for themselves. */
export const drawsWith = (tool: Tool): boolean =>
  isDrawing(tool) || isMarking(tool) || tool === 'hole' || tool === 'standing';

export function toolDown(scene: Scene, point: ToolPoint): void {
  const { tool } = useApp.getState();
  const { looking } = point;
  const paper = toPaper(looking.t, point.at);
  if (isDrawing(tool)) {
    draw(scene, tool, point, (at) => ({ type: 'down', at, view: looking.frame.name }));
  } else if (isMarking(tool)) {
    const under = faceUnder(scene, looking, paper, point.areas());
    if (under) useDrawing.setState({ marking: marking(tool, looking, under, under.at) });
    else useApp.getState().notify('No face there: press on a side of a compartment');
  } else if (tool === 'hole') {
    const found = panelUnder(scene, looking, paper, true);
    if (found) makeHole(found.panel, found.at);
    else useApp.getState().notify('No panel there: press where two compartments meet');
  } else if (tool === 'standing') makeStanding(scene, looking, paper, point.areas());
}

export function toolMove(scene: Scene, point: ToolPoint): void {
  const { tool } = useApp.getState();
  if (isDrawing(tool)) draw(scene, tool, point, (at) => ({ type: 'move', at }));
  else if (isMarking(tool)) {
    const { marking: now } = useDrawing.getState();
    if (now) markTo(scene, point, now);
    else aimAt(scene, point);
  }
}

/** Shows which face a press would take. */
function aimAt(scene: Scene, { looking, at, areas }: ToolPoint): void {
  const under = faceUnder(scene, looking, toPaper(looking.t, at), areas());
  const aim = under ? { compartment: under.compartment, key: under.face.key } : null;
  const before = useDrawing.getState().aim;
  if (aim?.compartment !== before?.compartment || aim?.key !== before?.key) useDrawing.setState({ aim });
}

export function toolUp(scene: Scene, point: ToolPoint, moved: boolean): void {
  const { tool, setTool } = useApp.getState();
  if (isDrawing(tool)) draw(scene, tool, point, (at) => ({ type: 'up', at, moved }));
  else if (isMarking(tool)) {
    const before = useDrawing.getState().marking;
    if (!before) return;
    if (moved) markTo(scene, point, before);
    const { marking: now } = useDrawing.getState();
    useDrawing.setState(NOTHING_DRAWN);
    if (now && makeMarked(scene.boat, scene.arrangementId, now)) setTool('select');
  }
}

function markTo(scene: Scene, { looking, at }: ToolPoint, now: Marking): void {
  const own = scene.boat.compartments[now.compartment];
  const face = own ? faceOfKey(own, now.key) : null;
  if (!face || looking.view !== now.view) return;
  const to = pointOnFace(face, looking.frame, toPaper(looking.t, at));
  const under = { compartment: now.compartment, face, at: now.from };
  useDrawing.setState({ marking: marking(now.what, looking, under, to) });
}

function draw(scene: Scene, tool: DrawingTool, point: ToolPoint, input: (at: Vec2) => DrawingInput): void {
  const { looking, free } = point;
  const { draft } = useDrawing.getState();
  // A draft goes on in the view that it was begun in.
  if (draft && draft.view !== looking.frame.name) return;
  const paper = toPaper(looking.t, point.at);
  const points = draft ? [...draft.points, paper] : [paper];
  const proposed = { view: looking.frame.name, ...rangeFor(scene, looking.frame.name, points) };
  const across = looking.cutAt ?? (proposed.rangeM[0] + proposed.rangeM[1]) / 2;
  const place = depthAxis(looking.frame) === 0 ? scene.sectionX : across;
  const field =
    tool === 'measure' ? measureField(scene, looking.frame) : snapFieldOf(scene, looking.frame, null, place);
  const { at, on } = snapPoint(paper, field, pullOf(looking.scale, free));
  useDrawing.setState({ on, ...(tool === 'rectangle' || tool === 'polygon' ? { proposed } : {}) });
  feed(scene, tool, input(at), looking.scale);
}

let lastMeasured: { key: readonly unknown[]; field: SnapField } | null = null;

/** What a tape may be held to in a view: faces of compartments, the skin, and the outlines of things. */
export function measureField(scene: Scene, frame: ViewFrame): SnapField {
  const key = [scene.boat.compartments, scene.hull, scene.placed, scene.sectionX, frame];
  if (lastMeasured?.key.every((k, i) => k === key[i])) return lastMeasured.field;
  const { lines, curves } = snapFieldOf(scene, frame, null, depthAxis(frame) === 0 ? scene.sectionX : 0);
  const cut = viewsOf(scene).find(({ name }) => name === frame.name)?.cut ?? null;
  const outlines = thingsIn(scene.placed, cut, frame, null).flatMap((placed) => {
    const ring = linesOfThing(placed, frame).envelope;
    return ring.map(
      (a, i): SnapLine => ({ a, b: ring[(i + 1) % ring.length] as Vec2, solid: [0, 0], subject: placed.id }),
    );
  });
  const field = { lines: [...lines, ...outlines], curves };
  lastMeasured = { key, field };
  return field;
}

/** One step of the drawing; what it finishes is made. */
export function feed(scene: Scene, tool: DrawingTool, input: DrawingInput, scale: number): void {
  const { draft, drawn } = drawingStep(useDrawing.getState().draft, tool, input, (PULL_PX * 1.5) / scale);
  useDrawing.setState(drawn ? { draft, on: [] } : { draft });
  if (drawn) make(scene, drawn);
}

/** Enter closes what is drawn, Backspace takes the last corner back. True for a key that it used. */
export function toolKey(scene: Scene, key: string): boolean {
  const { draft } = useDrawing.getState();
  if (!draft || (key !== 'Enter' && key !== 'Backspace')) return false;
  feed(scene, draft.tool, { type: key === 'Enter' ? 'close' : 'back' }, scene.camera.scale);
  return true;
}
