import type { Pose, Vec2 } from '@core/base/vec';
import type { Boat, Part } from '@core/boat/schema/boat';
import { COMPARTMENT, OPENING } from '@core/engine/fit/locker';
import { compartmentOutline } from '@core/output/views/compartments';
import { boundsOf, FRAMES, type Primitive, type ViewName } from '@core/output/views/drawing';
import { openingLines } from '@core/output/views/openings';
import { clearanceLines, thingLines } from '@core/output/views/things';
import { deriveLayout } from '@core/shape/layout/derive';
import type { Layout } from '@core/shape/layout/types';
import { type JSX, useMemo, useRef } from 'react';
import { useSize } from '../../board/use-size';
import { lengthUnit, wholeLength } from '../../panels/format';
import { useApp } from '../../store/app';

export interface Ghost {
  readonly id: string;
  readonly part: Part;
  readonly pose: Pose;
}

const VIEWS: readonly (readonly [ViewName, string])[] = [
  ['profile', 'Profile, from starboard'],
  ['section', 'Section, looking forward'],
  ['plan', 'Plan, from above'],
];
/** Room about a view for its sizes and its name, pixels. */
const MARGIN = { left: 46, right: 30, top: 26, bottom: 34 };

/** The locker in three views to one scale, laid out as on a lines plan, with parts where they would stand. */
export function LockerDrawing({
  boat,
  ghosts,
  tight,
  isShort,
}: {
  readonly boat: Boat;
  readonly ghosts: readonly Ghost[];
  /** Sides that decide the spare of what is shown. */
  readonly tight: readonly string[];
  /** What is shown stands nowhere: it is drawn where it comes nearest. */
  readonly isShort: boolean;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const host = useRef<HTMLDivElement>(null);
  const { width, height } = useSize(host);
  const layout = useMemo(() => layoutOf(boat), [boat]);
  const views = useMemo(
    () => VIEWS.map(([name, title]) => ({ name, title, ...linesOf(boat, layout, ghosts, name, isShort) })),
    [boat, layout, ghosts, isShort],
  );
  const [profile, section, plan] = views;
  if (!profile || !section || !plan) return <div className="locker-drawing" ref={host} />;
  const across = profile.size[0] + section.size[0];
  const upright = profile.size[1] + plan.size[1];
  const margins = [2 * (MARGIN.left + MARGIN.right), 2 * (MARGIN.top + MARGIN.bottom)] as const;
  const scale = Math.max(20, Math.min((width - margins[0]) / across, (height - margins[1]) / upright));
  const columns = [MARGIN.left, 2 * MARGIN.left + MARGIN.right + profile.size[0] * scale] as const;
  const rows = [MARGIN.top, 2 * MARGIN.top + MARGIN.bottom + profile.size[1] * scale] as const;
  const places: Readonly<Record<ViewName, readonly [number, number]>> = {
    profile: [columns[0], rows[0]],
    section: [columns[1], rows[0]],
    plan: [columns[0], rows[1]],
  };
  return (
    <div className="locker-drawing" ref={host}>
      {width > 0 ? (
        <svg width={width} height={height} aria-hidden="true">
          {views.map((view) => {
            const [left, top] = places[view.name];
            const toPaper = ([u, v]: Vec2): Vec2 => [
              left + (u - view.low[0]) * scale,
              top + (view.low[1] + view.size[1] - v) * scale,
            ];
            const [w, h] = [view.size[0] * scale, view.size[1] * scale];
            return (
              <g key={view.name}>
                <text className="view-title" x={left} y={top - 10}>
                  {view.title}
                </text>
                {view.primitives.map((drawn) => (
                  <path key={drawn.id} className={classOf(drawn, isShort)} d={pathOf(drawn, toPaper)} />
                ))}
                {view.sides
                  .filter(({ name }) => tight.includes(name))
                  .map(({ name, ends }) => (
                    <path key={name} className="tight" d={pathThrough(ends.map(toPaper), false)} />
                  ))}
                {view.tags.map(({ id, tag, at }) => {
                  const [x, y] = toPaper(at);
                  return (
                    <text key={id} className="tag" x={x + 4} y={y + 12}>
                      {tag}
                    </text>
                  );
                })}
                <Dimension
                  from={[left, top + h + 14]}
                  to={[left + w, top + h + 14]}
                  words={wholeLength(view.size[0], units)}
                />
                <Dimension from={[left - 14, top + h]} to={[left - 14, top]} words={wholeLength(view.size[1], units)} />
              </g>
            );
          })}
          <text className="scale-words" x={columns[1]} y={rows[1]}>
            {`Sizes in ${lengthUnit(units)}. One scale in all views.`}
          </text>
          {tight.length > 0 ? (
            <text className="scale-words" x={columns[1]} y={rows[1] + 18}>
              Brass: the sides that decide.
            </text>
          ) : null}
        </svg>
      ) : null}
    </div>
  );
}

/** A size along a line with arrows; running upwards it stands beside the line. */
function Dimension({
  from,
  to,
  words,
}: {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly words: string;
}): JSX.Element {
  const isUpright = Math.abs(to[0] - from[0]) < 1;
  const middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2] as const;
  return (
    <g className="dimension">
      <path d={pathThrough([from, to], false)} />
      <path d={isUpright ? arrows(from, to, 3, 0) : arrows(from, to, 0, 3)} />
      <text
        x={isUpright ? middle[0] - 5 : middle[0]}
        y={isUpright ? middle[1] + 4 : middle[1] + 13}
        textAnchor={isUpright ? 'end' : 'middle'}
      >
        {words}
      </text>
    </g>
  );
}

const arrows = ([x0, y0]: Vec2, [x1, y1]: Vec2, dx: number, dy: number): string =>
  `M${x0 - dx} ${y0 - dy}L${x0 + dx} ${y0 + dy}M${x1 - dx} ${y1 - dy}L${x1 + dx} ${y1 + dy}`;

const layoutOf = (boat: Boat): Layout =>
  deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: boat.newHoleCostM });

interface ViewLines {
  readonly primitives: readonly Primitive[];
  readonly low: Vec2;
  readonly size: Vec2;
  readonly sides: readonly { readonly name: string; readonly ends: readonly [Vec2, Vec2] }[];
  readonly tags: readonly { readonly id: string; readonly tag: string; readonly at: Vec2 }[];
}

function linesOf(boat: Boat, layout: Layout, ghosts: readonly Ghost[], name: ViewName, isShort: boolean): ViewLines {
  const frame = FRAMES[name];
  const rings = compartmentOutline(layout, COMPARTMENT, frame, null);
  const bounds = boundsOf(rings.flat()) ?? { low: [0, 0], high: [1, 1] };
  const opening = boat.openings[OPENING];
  const primitives: Primitive[] = [
    ...rings.map(
      (points, i): Primitive => ({
        kind: 'stroke',
        id: `room${i}`,
        subject: COMPARTMENT,
        role: 'compartmentCut',
        points,
        closed: true,
      }),
    ),
    // What stands nowhere cannot be serviced there.
    ...ghosts.flatMap(({ id, part, pose }) => (isShort ? [] : clearanceLines(id, part, pose, frame))),
    ...ghosts.flatMap(({ id, part, pose }) => thingLines(id, part, pose, frame, 'part').strokes),
    ...(opening ? openingLines(OPENING, opening, frame) : []),
  ];
  return {
    primitives,
    low: bounds.low,
    size: [bounds.high[0] - bounds.low[0], bounds.high[1] - bounds.low[1]],
    sides: sidesIn(boat, rings[0] ?? [], name),
    tags: ghosts.map(({ id, part, pose }) => {
      const { low, high } = thingLines(id, part, pose, frame, 'part').bounds;
      return { id, tag: part.tag ?? id, at: [low[0], high[1]] as const };
    }),
  };
}

/** Sides of the outline on paper by the names that the answers use. */
function sidesIn(boat: Boat, ring: readonly Vec2[], view: ViewName): ViewLines['sides'] {
  const outline = boat.compartments[COMPARTMENT]?.outline ?? [];
  const isPort = Math.max(...outline.map(([y]) => y)) > 1e-9;
  return ring.flatMap((from, i) => {
    const to = ring[(i + 1) % ring.length];
    if (!to) return [];
    const name = sideOnPaper(from, to, ring, view, isPort);
    return name === null ? [] : [{ name, ends: [from, to] as const }];
  });
}

function sideOnPaper(from: Vec2, to: Vec2, ring: readonly Vec2[], view: ViewName, isPort: boolean): string | null {
  const middle = ring.reduce<Vec2>((s, p) => [s[0] + p[0] / ring.length, s[1] + p[1] / ring.length], [0, 0]);
  const at: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const isLevel = Math.abs(from[1] - to[1]) < 1e-6;
  if (view === 'section') {
    if (isLevel) return at[1] > middle[1] ? 'top' : 'bottom';
    // Port is on the left of a section.
    return at[0] < middle[0] === isPort ? 'hull side' : 'inboard side';
  }
  if (!isLevel) return at[0] > middle[0] ? 'forward end' : 'aft end';
  if (view === 'profile') return at[1] > middle[1] ? 'top' : 'bottom';
  return at[1] > middle[1] === isPort ? null : 'inboard side';
}

function classOf(drawn: Primitive, isShort: boolean): string {
  const short = isShort && (drawn.role === 'part' || drawn.role === 'symbol') ? ' short' : '';
  return `role-${drawn.role} ${drawn.kind}${short}`;
}

function pathOf(drawn: Primitive, toPaper: (p: Vec2) => Vec2): string {
  if (drawn.kind === 'area') return drawn.rings.map((ring) => pathThrough(ring.map(toPaper), true)).join('');
  return pathThrough(drawn.points.map(toPaper), drawn.closed);
}

const pathThrough = (points: readonly Vec2[], closed: boolean): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('') + (closed ? 'z' : '');
