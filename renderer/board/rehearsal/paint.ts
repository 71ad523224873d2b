import type { Vec2, Vec3 } from '@core/base/vec';
import type { RehearsalStep } from '@core/engine/service/service-report';
import { digits } from '@core/output/text/quantity-text';
import { stepWords, taskName } from '@core/output/text/task-words';
import { depthOf, FRAMES, type Primitive, project, type ViewName } from '@core/output/views/drawing';
import { openingLines } from '@core/output/views/openings';
import { rehearsalLines } from '@core/output/views/rehearsal';
import { lengthUnit, wholeLength } from '../../panels/format';
import { type Candidate, placeLabels, spotsAlong } from '../labels';
import { paintInnerFrame, paintZones, rectOn } from '../paint/background';
import { paintCut, paintCutWords } from '../paint/cut';
import { paintThing } from '../paint/interior';
import { type Ctx, FONT, inField, letter, paintPrimitive, widthOf } from '../paint/pen';
import { paintRuns } from '../paint/runs';
import { isCutBy, runsIn, thingsIn } from '../scene';
import { pixelsPerMetreOf, type Rect, type Transform, toScreen, within } from '../sheet';
import { linesOfThing, type Placed } from '../things';
import { paintEye } from './paint-eye';
import { cutAt, type RehearsalScene } from './scene';
import { boxIn, transformIn } from './sheet';

/** How deep behind its plane a view shows runs, metres. */
const DEEP_M = 0.6;
const VIEWS: readonly ViewName[] = ['profile', 'section', 'plan'];

/** The sheet of a rehearsal, one step of it. */
export function paintRehearsal(ctx: Ctx, scene: RehearsalScene): void {
  const { sheet, colours } = scene;
  ctx.fillStyle = colours.film;
  ctx.fillRect(0, 0, sheet.width, sheet.height);
  ctx.fillStyle = colours.paper;
  ctx.fillRect(sheet.outer.x, sheet.outer.y, sheet.outer.w, sheet.outer.h);
  paintZones(ctx, sheet, colours);
  for (const name of VIEWS) paintView(ctx, scene, name);
  paintEye(ctx, scene, sheet.fields.detail);
  paintInnerFrame(ctx, sheet, colours);
}

function paintView(ctx: Ctx, scene: RehearsalScene, name: ViewName): void {
  const { sheet, camera, colours } = scene;
  const field = sheet.fields[name];
  const box = boxIn(field);
  const t = transformIn(sheet, camera, name);
  ctx.fillStyle = colours.paper;
  ctx.fillRect(box.x, box.y, box.w, box.h);
  inField(ctx, box, () => paintScene(ctx, scene, name, t, box));
  ctx.setLineDash([]);
  ctx.lineWidth = 1.2;
  ctx.strokeStyle = colours.draw;
  ctx.strokeRect(Math.floor(box.x) + 0.5, Math.floor(box.y) + 0.5, Math.round(box.w), Math.round(box.h));
  const scale = name === 'profile' ? `1 : ${digits(pixelsPerMetreOf(1) / camera.scale, 0)}` : '';
  caption(ctx, scene, field, captionOf(scene, name), scale);
}

/** Heading of a field, shortened to the room that it has. */
function caption(ctx: Ctx, { colours }: RehearsalScene, field: Rect, words: string, aside: string): void {
  const room = field.w - 8 - (aside === '' ? 0 : widthOf(aside, FONT.drawing) + 12);
  letter(ctx, shortened(words, FONT.caption, room), [field.x, field.y + 10], {
    font: FONT.caption,
    colour: colours.ink,
    align: 'left',
  });
  if (aside !== '')
    letter(ctx, aside, [field.x + field.w, field.y + 10], { font: FONT.drawing, colour: colours.ink3, align: 'right' });
}

function shortened(words: string, font: string, room: number): string {
  if (widthOf(words, font) <= room) return words;
  let end = words.length;
  while (end > 1 && widthOf(`${words.slice(0, end)}\u2026`, font) > room) end -= 1;
  return `${words.slice(0, end).trimEnd()}\u2026`;
}

function captionOf(scene: RehearsalScene, name: ViewName): string {
  const { task, steps, index, boat } = scene;
  const metres = (value: number): string => digits(value, 2);
  const step = steps[index];
  switch (name) {
    case 'profile': {
      if (!step) return `Profile: ${taskName(boat, task)}`;
      const words = step.kind === 'work' ? taskName(boat, task) : stepWords(step, boat);
      return `Profile, step ${index + 1} of ${steps.length}: ${words.charAt(0).toLowerCase()}${words.slice(1)}`;
    }
    case 'section':
      return `Section at ${metres(task.at[0])} m, looking forward`;
    case 'plan':
      return `Plan at z ${metres(task.at[2])} m`;
  }
}

function paintScene(ctx: Ctx, scene: RehearsalScene, name: ViewName, t: Transform, box: Rect): void {
  const { colours, task, boat, steps, index, body, stance, hovered } = scene;
  const frame = FRAMES[name];
  const { cut, ...drawn } = cutAt(scene, name);
  paintCut(ctx, t, box, { cut, ...drawn }, roomOfTask(scene), colours);
  const step = steps[index];
  const lines = step ? rehearsalLines(step, body, stance, task.at, frame) : null;
  const paint = (primitives: readonly Primitive[]): void => {
    for (const p of primitives) paintPrimitive(ctx, t, p, colours);
    ctx.setLineDash([]);
  };
  // Whoever stands on the far side of the place is seen behind what stands about it.
  const isBehind = step?.person ? depthOf(frame, step.person.shoulder) < depthOf(frame, task.at) : false;
  if (lines && isBehind) paint(lines.person);
  const gone = takenOff(steps, index);
  const near = thingsIn(scene.placed, cut, frame, task.thing);
  for (const p of near) if (p.id !== task.thing && !isCutBy(p, cut)) paintAside(ctx, t, p, gone, 'behind');
  for (const p of near) if (p.id !== task.thing && isCutBy(p, cut)) paintAside(ctx, t, p, gone, 'rest');
  const runs = runsIn(
    boat,
    scene.paths.filter(({ id }) => !gone.has(id)),
    { frame, cut },
    DEEP_M,
  );
  paintRuns(ctx, t, runs, colours, { strong: (id) => hovered === id, letters: true });
  paintWays(ctx, scene, name, t);

  if (lines) {
    paint(lines.swept);
    if (!isBehind) paint(lines.person);
  }
  const subject = near.find(({ id }) => id === task.thing);
  if (subject) paintThing(ctx, t, frame, subject, colours, 'selected');
  if (lines) {
    paint(lines.drip);
    paint(lines.arms);
    paint(lines.rays);
    for (const stop of lines.stops) cross(ctx, toScreen(t, stop), colours.bad);
  }
  const numbers = placeNumbers(scene, name, t, box);
  paintCutWords(ctx, colours, t, box, drawn.compartments, near, task.thing, frame, [
    ...spotsAlong(runs, t, box),
    ...(lines ? roomOf([...lines.person, ...lines.arms, ...lines.rays], t) : []),
    ...numbers.taken,
  ]);
  numbers.paint(ctx);

  function paintAside(
    on: Ctx,
    at: Transform,
    placed: Placed,
    away: ReadonlySet<string>,
    look: 'rest' | 'behind',
  ): void {
    paintThing(on, at, frame, placed, colours, away.has(placed.id) ? 'ghost' : placed.id === hovered ? 'hover' : look);
  }
}

/** What is reached into is washed; a room in which one stands beside the thing is not. */
const roomOfTask = ({ task, layout }: RehearsalScene): string | null =>
  task.openings.length === 0 ? null : layout.compartmentAt(task.at);

/** Where no place name is set: what the person covers. */
const roomOf = (primitives: readonly Primitive[], t: Transform): Rect[] =>
  primitives.map((p) => {
    const points = p.kind === 'area' ? p.rings.flat() : p.points;
    const us = points.map(([u]) => u);
    const vs = points.map(([, v]) => v);
    return rectOn({ t }, [Math.min(...us), Math.min(...vs)], [Math.max(...us), Math.max(...vs)]);
  });

/** Things and lines that are off by then. */
const takenOff = (steps: readonly RehearsalStep[], index: number): ReadonlySet<string> =>
  new Set(
    steps
      .slice(0, index + 1)
      .flatMap(({ kind, subject }) => ((kind === 'takeOff' || kind === 'move') && subject !== null ? [subject] : [])),
  );

/** Openings of the way: those that are opened in this step are lit, those that are open already show their leaf. */
function paintWays(
  ctx: Ctx,
  { boat, task, steps, index, colours }: RehearsalScene,
  name: ViewName,
  t: Transform,
): void {
  const frame = FRAMES[name];
  const opened = new Set(steps.slice(0, index + 1).flatMap(({ kind, subject }) => (kind === 'open' ? [subject] : [])));
  const now = steps[index];
  for (const id of task.openings) {
    const opening = boat.openings[id];
    if (!opening) continue;
    const isNow = now?.kind === 'open' && now.subject === id;
    for (const line of openingLines(id, opening, frame)) {
      if (line.role === 'openingSwing' && !opened.has(id)) continue;
      const isLeaf = line.id.endsWith('/leaf');
      paintPrimitive(
        ctx,
        t,
        line,
        colours,
        isNow || isLeaf ? { width: isNow ? 2.4 : 1.8, colour: 'accl', dash: [] } : { width: 1.2 },
      );
    }
  }
  ctx.setLineDash([]);
}

function cross(ctx: Ctx, [x, y]: Vec2, colour: string): void {
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.moveTo(x - 3.5, y - 3.5);
  ctx.lineTo(x + 3.5, y + 3.5);
  ctx.moveTo(x - 3.5, y + 3.5);
  ctx.lineTo(x + 3.5, y - 3.5);
  ctx.lineWidth = 1.4;
  ctx.strokeStyle = colour;
  ctx.stroke();
}

/** Where a step is done. */
function placeOfStep({ boat, task, placed }: RehearsalScene, step: RehearsalStep): Vec3 | null {
  const thing = placed.find(({ id }) => id === step.subject);
  switch (step.kind) {
    case 'go':
      return step.person?.at ?? null;
    case 'open':
    case 'move':
    case 'takeOff':
      return (step.subject === null ? undefined : boat.openings[step.subject]?.at) ?? thing?.pose.at ?? null;
    case 'catch':
      return step.drip.at(-1) ?? task.at;
    case 'close':
      return null;
    default:
      return task.at;
  }
}

const BALLOON_PX = 20;

/** Numbers of the steps at their places, that of the shown step filled; of several at one place the shown one, else the first. */
function placeNumbers(
  scene: RehearsalScene,
  name: ViewName,
  t: Transform,
  box: Rect,
): { readonly taken: readonly Rect[]; paint(ctx: Ctx): void } {
  const { steps, index, colours, task, units } = scene;
  const frame = FRAMES[name];
  const places = new Map<string, { readonly step: number; readonly at: Vec2 }>();
  for (const [step, one] of steps.entries()) {
    const place = placeOfStep(scene, one);
    if (!place) continue;
    const at = toScreen(t, project(frame, place));
    const key = at.map((value) => Math.round(value / 12)).join(' ');
    if (within(box, at) && (step === index || !places.has(key))) places.set(key, { step, at });
  }
  const subject = scene.placed.find(({ id }) => id === task.thing);
  const bounds = subject ? linesOfThing(subject, frame).bounds : null;
  const body = bounds ? rectOn({ t }, bounds.low, bounds.high) : null;
  const candidates = [...places.values()].map(
    ({ step, at: [x, y] }): Candidate => ({
      id: String(step),
      rank: step === index ? 0 : 1,
      width: BALLOON_PX,
      height: BALLOON_PX,
      always: true,
      places: OFFSETS.map(([dx, dy]): Vec2 => [x + dx, y + dy]).filter((place) => within(box, place)),
    }),
  );
  const words = wordsOf(scene, name, t, units);
  const placed = placeLabels(
    [
      ...candidates,
      ...words.map(({ text, at: [x, y], off }, i): Candidate => {
        const width = widthOf(text, FONT.strong) + 6;
        return {
          id: `word ${i}`,
          rank: 2,
          width,
          height: 14,
          places: (
            [
              [width / 2 + off + 6, -8],
              [width / 2 + off + 6, 8],
              [-width / 2 - off - 6, -8],
              [-width / 2 - off - 6, 8],
              [0, -off - 12],
              [0, off + 12],
            ] as const
          )
            .map(([dx, dy]): Vec2 => [x + dx, y + dy])
            .filter(([px]) => px - width / 2 > box.x + 2 && px + width / 2 < box.x + box.w - 2),
        };
      }),
    ],
    body ? [body] : [],
  );
  const taken = candidates.flatMap(({ id, width, height }): Rect[] => {
    const at = placed.get(id);
    return at ? [{ x: at[0] - width / 2, y: at[1] - height / 2, w: width, h: height }] : [];
  });
  return {
    taken,
    paint(ctx) {
      for (const { step, at } of places.values()) {
        const where = placed.get(String(step));
        if (where) paintNumber(ctx, where, at, step + 1, step === index, colours);
      }
      for (const [i, { text, colour }] of words.entries()) {
        const where = placed.get(`word ${i}`);
        if (where) letter(ctx, text, where, { font: FONT.strong, colour, halo: colours.paper });
      }
    },
  };
}

const OFFSETS: readonly Vec2[] = [
  [-26, 16],
  [26, 16],
  [-26, -16],
  [26, -16],
  [0, 28],
  [0, -28],
  [-40, 0],
  [40, 0],
  [-52, 30],
  [52, 30],
  [-52, -30],
  [52, -30],
];

function paintNumber(
  ctx: Ctx,
  [x, y]: Vec2,
  to: Vec2,
  number: number,
  isNow: boolean,
  colours: RehearsalScene['colours'],
): void {
  const [dx, dy] = [to[0] - x, to[1] - y];
  const length = Math.hypot(dx, dy) || 1;
  ctx.setLineDash([]);
  ctx.lineWidth = 0.8;
  ctx.strokeStyle = colours.accl;
  ctx.beginPath();
  ctx.moveTo(x + (dx / length) * 9.5, y + (dy / length) * 9.5);
  ctx.lineTo(to[0], to[1]);
  ctx.stroke();
  ctx.beginPath();
  ctx.arc(x, y, 9.5, 0, 2 * Math.PI);
  ctx.fillStyle = isNow ? colours.accent : colours.paper;
  ctx.fill();
  ctx.lineWidth = 1.4;
  ctx.strokeStyle = isNow ? colours.accent : colours.accl;
  ctx.stroke();
  letter(ctx, String(number), [x, y], { font: FONT.balloon, colour: isNow ? colours.paper : colours.accent });
}

interface Word {
  readonly text: string;
  readonly at: Vec2;
  /** How far what it speaks of reaches about the place, pixels. */
  readonly off: number;
  readonly colour: string;
}

/** What is read off the drawing in this step, in profile alone: how far eye and arm are, and what runs out. */
function wordsOf(
  { steps, index, task, body, colours }: RehearsalScene,
  name: ViewName,
  t: Transform,
  units: RehearsalScene['units'],
): readonly Word[] {
  const step = steps[index];
  if (!step || name !== 'profile') return [];
  const at = (p: Vec3): Vec2 => toScreen(t, project(FRAMES[name], p));
  const measured = (what: string) => task.measures.find((measure) => measure.what === what);
  const length = (metres: number): string => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  const seen = step.rays.length > 0 && step.person ? measured('seenDistance') : undefined;
  const [arm] = step.arms;
  const end = step.drip.at(-1);
  return [
    ...(seen && step.person
      ? [
          {
            text: `eye ${length(seen.value)} away`,
            at: at(step.person.eye),
            off: 2 * body.headRadiusM * t.scale,
            colour: colours.ink,
          },
        ]
      : []),
    ...(arm && task.reach
      ? [
          {
            text: `arm ${wholeLength(task.reach.valueM, units)} of ${length(task.reach.limitM)}`,
            at: at(arm.elbow),
            off: body.forearmRadiusM * t.scale,
            colour: colours.ink,
          },
        ]
      : []),
    ...(end && task.spillL > 0
      ? [{ text: `${digits(task.spillL, 1)} L runs out`, at: at(end), off: 4, colour: colours.sea }]
      : []),
  ];
}
