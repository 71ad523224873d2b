import { ORIGIN, type Pose, type Vec2, type Vec3 } from '@core/base/vec';
import type { Part } from '@core/boat/schema/boat';
import { depthAxis, PLAN, PROFILE, project, SECTION, type ViewFrame } from '@core/output/views/drawing';
import { envelopePoints, keepOutOutline, serviceOutline, silhouetteOf } from '@core/output/views/envelope';
import { FACE_AXES, faceSymbol } from '@core/output/views/symbols';
import { servicesWithRoom } from '@core/shape/space/things';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { lengthFigure, lengthUnit } from '../format';

const AT_REST: Pose = { at: ORIGIN, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
/** Pixels: between the views, for dimensions outside them, and for captions over them. */
const GAP = 30;
const MARGIN = 26;
/** More on the left: ports and the height stand there. */
const LEFT = 54;
const CAPTION = 18;
/** How far a port is drawn out of its place, and its ring. */
const STUB = 16;
const PORT_R = 4;

interface View {
  readonly frame: ViewFrame;
  readonly caption: string;
  readonly low: Vec2;
  readonly high: Vec2;
}

/** The part as a data sheet draws it: side, top below it, and from behind beside it, to one scale, with ports and clear spaces. */
export function ThreeViews({
  part,
  width,
  height,
  dimensions = false,
  only,
}: {
  readonly part: Part;
  readonly width: number;
  readonly height: number;
  /** With dimension lines and the numbers of ports. */
  readonly dimensions?: boolean;
  /** One view alone, for a row of a list. */
  readonly only?: 'side';
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const margin = dimensions ? MARGIN : 8;
  const side = viewOf(part, PROFILE, 'Side');
  const top = viewOf(part, PLAN, 'Top');
  const end = viewOf(part, SECTION, 'From behind');
  if (only === 'side') {
    const small = Math.min((width - 16) / widthOf(side), (height - 8) / heightOf(side));
    const at: Vec2 = [(width - widthOf(side) * small) / 2, (height - heightOf(side) * small) / 2];
    return (
      <svg className="three-views" width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
        <Drawn part={part} view={side} at={at} scale={small} numbered={false} sizes={null} />
      </svg>
    );
  }
  const across = widthOf(side) + widthOf(end);
  const along = heightOf(side) + heightOf(top);
  const left = dimensions ? LEFT : margin;
  const room = [width - left - margin - GAP, height - 2 * margin - GAP - 2 * CAPTION] as const;
  const scale = Math.max(1, Math.min(room[0] / across, room[1] / along));
  // Side and top share their length, side and end their height.
  const columns = [left, left + Math.max(widthOf(side), widthOf(top)) * scale + GAP] as const;
  const rows = [
    margin + CAPTION,
    margin + CAPTION + Math.max(heightOf(side), heightOf(end)) * scale + GAP + CAPTION,
  ] as const;
  const used = Math.min(height, rows[1] + heightOf(top) * scale + margin);
  const size = envelopeSize(part);
  const words = size.map((length) => lengthFigure(length, units)).join(' by ');
  return (
    <svg
      className="three-views"
      width={width}
      height={used}
      viewBox={`0 0 ${width} ${used}`}
      role="img"
      aria-label={`${part.name}: side, top and end view, ${words} ${lengthUnit(units)}, ${Object.keys(part.ports).length} ports`}
    >
      <Drawn
        part={part}
        view={side}
        at={[columns[0], rows[0]]}
        scale={scale}
        numbered={dimensions}
        sizes={dimensions ? [null, size[2]] : null}
      />
      <Drawn
        part={part}
        view={end}
        at={[columns[1], rows[0]]}
        scale={scale}
        numbered={dimensions}
        sizes={dimensions ? [size[1], null] : null}
      />
      <Drawn
        part={part}
        view={top}
        at={[columns[0], rows[1]]}
        scale={scale}
        numbered={dimensions}
        sizes={dimensions ? [size[0], null] : null}
      />
    </svg>
  );
}

const envelopeSize = (part: Part): Vec3 => {
  const points = envelopePoints(part.shape);
  return [0, 1, 2].map((k) => 2 * Math.max(...points.map((p) => Math.abs(p[k] ?? 0)))) as unknown as Vec3;
};

const widthOf = ({ low, high }: View): number => high[0] - low[0];
const heightOf = ({ low, high }: View): number => high[1] - low[1];

function viewOf(part: Part, frame: ViewFrame, caption: string): View {
  const points: Vec2[] = [
    ...silhouetteOf(part.shape, AT_REST, frame),
    ...Object.values(servicesWithRoom(part)).flatMap((service) => serviceOutline(service, AT_REST, frame)),
    ...Object.values(part.sweeps).flatMap((sweep) => keepOutOutline(sweep, AT_REST, frame)),
    ...Object.values(part.ports).map(({ at }) => project(frame, at)),
  ];
  const bound = (pick: (...values: number[]) => number): Vec2 => [
    pick(...points.map(([u]) => u)),
    pick(...points.map(([, v]) => v)),
  ];
  return { frame, caption, low: bound(Math.min), high: bound(Math.max) };
}

function Drawn({
  part,
  view,
  at,
  scale,
  numbered,
  sizes,
}: {
  readonly part: Part;
  readonly view: View;
  readonly at: Vec2;
  readonly scale: number;
  readonly numbered: boolean;
  /** Of the envelope, metres: across and along the paper; null draws no dimension line there. */
  readonly sizes: readonly [number | null, number | null] | null;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const onPaper = ([u, v]: Vec2): Vec2 => [at[0] + (u - view.low[0]) * scale, at[1] + (view.high[1] - v) * scale];
  const path = (ring: readonly Vec2[]): string =>
    ring.length === 0
      ? ''
      : `M${ring
          .map(onPaper)
          .map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`)
          .join('L')}Z`;
  const body = silhouetteOf(part.shape, AT_REST, view.frame);
  const corners = body.map(onPaper);
  const left = Math.min(...corners.map(([x]) => x));
  const right = Math.max(...corners.map(([x]) => x));
  const upper = Math.min(...corners.map(([, y]) => y));
  const lower = Math.max(...corners.map(([, y]) => y));
  return (
    <g>
      {numbered ? (
        <text className="caption" x={at[0]} y={at[1] - 8}>
          {view.caption}
        </text>
      ) : null}
      {Object.entries(servicesWithRoom(part)).map(([id, service]) => (
        <path key={id} className="service" d={path(serviceOutline(service, AT_REST, view.frame))} />
      ))}
      <path className="body" d={path(body)} />
      {symbolOf(part, view.frame).map((points, index) => (
        // Strokes of a symbol have no name but their order.
        <polyline
          key={String(index)}
          className="symbol"
          points={points
            .map(onPaper)
            .map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`)
            .join(' ')}
        />
      ))}
      {Object.entries(part.sweeps).map(([id, sweep]) => (
        <path key={id} className="sweep" d={path(keepOutOutline(sweep, AT_REST, view.frame))} />
      ))}
      {Object.entries(part.ports).map(([id, port], index) => {
        const [x, y] = onPaper(project(view.frame, port.at));
        const length = Math.hypot(...port.direction);
        const [u, v] = project(view.frame, port.direction);
        const reach = numbered ? STUB : STUB / 2;
        const end: Vec2 = [x + (u / length) * reach, y - (v / length) * reach];
        // One that looks at the eye, or away from it, has its number beside it.
        const isEndOn = Math.hypot(u, v) < 0.3 * length;
        const mark: Vec2 = isEndOn ? [x + 10, y - 8] : [end[0] + (u / length) * 8, end[1] - (v / length) * 8];
        return (
          <g key={id} className="port">
            <line x1={x} y1={y} x2={end[0]} y2={end[1]} />
            <circle cx={x} cy={y} r={numbered ? PORT_R : 2.5} />
            {numbered ? (
              <text x={mark[0]} y={mark[1] + 4} textAnchor="middle">
                {index + 1}
              </text>
            ) : null}
          </g>
        );
      })}
      {sizes?.[0] == null ? null : (
        <Dimension from={[left, lower + 20]} to={[right, lower + 20]} words={lengthFigure(sizes[0], units)} />
      )}
      {sizes?.[1] == null ? null : (
        <Dimension from={[left - 36, lower]} to={[left - 36, upper]} words={lengthFigure(sizes[1], units)} />
      )}
    </g>
  );
}

/** The strokes that tell its kind, on the face that looks at the eye. */
function symbolOf(part: Part, frame: ViewFrame): readonly (readonly Vec2[])[] {
  const across = depthAxis(frame);
  const [first, second] = FACE_AXES[across];
  const { outline, strokes } = faceSymbol(part, across);
  const onView = ([a, b]: Vec2): Vec2 => {
    const at: [number, number, number] = [0, 0, 0];
    at[first] = a;
    at[second] = b;
    return project(frame, at);
  };
  const closed = (points: readonly Vec2[], isClosed: boolean): Vec2[] =>
    [...points, ...(isClosed ? points.slice(0, 1) : [])].map(onView);
  return [
    ...(outline ? [closed(outline, true)] : []),
    ...strokes.map(({ points, closed: isClosed }) => closed(points, isClosed)),
  ];
}

const ARROW = 6;

/** A dimension line with its arrows; the figure stands over it, of an upright one beside it. */
function Dimension({
  from,
  to,
  words,
}: {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly words: string;
}): JSX.Element {
  const upright = from[0] === to[0];
  const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [u, v] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const head = ([px, py]: Vec2, way: 1 | -1): string =>
    `M${px} ${py}l${way * u * ARROW - v * 2} ${way * v * ARROW + u * 2}l${v * 4} ${-u * 4}Z`;
  return (
    <g className="dimension">
      <line x1={from[0]} y1={from[1]} x2={to[0]} y2={to[1]} />
      <path d={`${head(from, 1)}${head(to, -1)}`} />
      <text
        x={x}
        y={upright ? y : y - 4}
        textAnchor="middle"
        transform={upright ? `rotate(-90 ${x} ${y}) translate(0 -4)` : undefined}
      >
        {words}
      </text>
    </g>
  );
}
