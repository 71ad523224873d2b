import { digits } from '@core/output/text/quantity-text';
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { type JSX, useRef } from 'react';
import { useSize } from '../board/use-size';

export interface ChartLine {
  readonly label: string;
  /** In the order of x. */
  readonly points: readonly (readonly [x: number, y: number])[];
  /** The second of two lines is dashed: a letter and a dash carry it in grey. */
  readonly dashed?: boolean;
}

interface Props {
  /** Quantity and unit: `Displacement, t`. */
  readonly title: string;
  readonly lines: readonly ChartLine[];
  readonly domain: readonly [number, number];
  /** Where the brass cursor stands. */
  readonly cursor: number;
  /** Figures of the axis and at the cursor. */
  figure(value: number): string;
  /** Words under the lowest of stacked charts; the others share its axis. */
  readonly axis?: { readonly words: string; figure(value: number): string };
  readonly heightPx?: number;
}

const LEFT_PX = 38;
const RIGHT_PX = 62;
const TOP_PX = 18;
const AXIS_PX = 28;
/** Labels at the ends of lines keep so far apart. */
const LABEL_PX = 13;

/** Lines over a shared axis, each named at its end and read off at the cursor. The words say the same to a screen reader. */
export function LineChart({ title, lines, domain, cursor, figure, axis, heightPx = 74 }: Props): JSX.Element {
  const frame = useRef<HTMLDivElement>(null);
  const width = Math.max(useSize(frame).width, 240);
  const bottom = heightPx;
  const height = bottom + (axis ? AXIS_PX : 6);
  const x = scaleLinear()
    .domain([...domain])
    .range([LEFT_PX, width - RIGHT_PX]);
  const values = lines.flatMap(({ points }) => points.map(([, value]) => value));
  const y = scaleLinear()
    .domain([
      Math.min(...values, values.length === 0 ? 0 : Number.POSITIVE_INFINITY),
      Math.max(...values, Number.MIN_VALUE),
    ])
    .nice(3)
    .range([bottom, TOP_PX + 6]);
  const [first = 0, second = 1] = y.ticks(3);
  const tickDecimals = Math.max(0, -Math.floor(Math.log10(second - first)));
  const path = line<readonly [number, number]>()
    .x(([at]) => x(at))
    .y(([, value]) => y(value));
  const read = lines.map((one) => ({ ...one, at: valueAt(one.points, cursor) }));
  const labels = apart(
    read.flatMap(({ label, points, at }) => {
      const last = points[points.length - 1];
      return last ? [{ label, value: at, y: y(last[1]) }] : [];
    }),
  );
  const said = read.map(({ label, at }) => `${label} ${at === null ? 'unknown' : figure(at)}`).join(', ');
  return (
    <div className="chart" ref={frame}>
      <svg width={width} height={height} role="img" aria-label={`${title}. At ${axis?.words ?? 'the cursor'}: ${said}`}>
        <text className="chart-title" x={0} y={11}>
          {title}
        </text>
        {x.ticks(5).map((tick) => (
          <g key={tick}>
            <line className="chart-grid" x1={x(tick)} x2={x(tick)} y1={TOP_PX} y2={bottom} />
            {axis ? (
              <text className="chart-tick" x={x(tick)} y={bottom + 13} textAnchor="middle">
                {axis.figure(tick)}
              </text>
            ) : null}
          </g>
        ))}
        {y.ticks(3).map((tick) => (
          <g key={tick}>
            <line className="chart-grid" x1={LEFT_PX} x2={width - RIGHT_PX} y1={y(tick)} y2={y(tick)} />
            <text className="chart-tick" x={LEFT_PX - 5} y={y(tick) + 4} textAnchor="end">
              {digits(tick, tickDecimals)}
            </text>
          </g>
        ))}
        <line className="chart-base" x1={LEFT_PX} x2={width - RIGHT_PX} y1={bottom} y2={bottom} />
        {axis ? (
          <text className="chart-tick" x={width - RIGHT_PX} y={bottom + 26} textAnchor="end">
            {axis.words}
          </text>
        ) : null}
        {lines.map((one) => (
          <path
            key={one.label}
            className={one.dashed ? 'chart-line dashed' : 'chart-line'}
            d={path([...one.points]) ?? ''}
          />
        ))}
        <line className="chart-cursor" x1={x(cursor)} x2={x(cursor)} y1={TOP_PX} y2={bottom} />
        {read.map(({ label, at }) =>
          at === null ? null : <circle key={label} className="chart-dot" cx={x(cursor)} cy={y(at)} r={2.5} />,
        )}
        {labels.map(({ label, value, y: at }) => (
          <text key={label} className="chart-label" x={width - RIGHT_PX + 5} y={at + 4}>
            {lines.length > 1 ? `${label} ` : ''}
            <tspan className="chart-value">{value === null ? '' : figure(value)}</tspan>
          </text>
        ))}
      </svg>
    </div>
  );
}

/** The value of a line at a place, between its points; null beyond its ends. */
export function valueAt(points: readonly (readonly [number, number])[], at: number): number | null {
  for (let i = 0; i + 1 < points.length; i++) {
    const [x0, y0] = points[i] ?? [0, 0];
    const [x1, y1] = points[i + 1] ?? [0, 0];
    if (at >= x0 && at <= x1) return x1 === x0 ? y0 : y0 + ((y1 - y0) * (at - x0)) / (x1 - x0);
  }
  return null;
}

/** Labels moved down just so far that none covers another. */
function apart<T extends { readonly y: number }>(labels: readonly T[]): readonly T[] {
  let free = Number.NEGATIVE_INFINITY;
  return [...labels]
    .sort((a, b) => a.y - b.y)
    .map((label) => {
      const y = Math.max(label.y, free);
      free = y + LABEL_PX;
      return { ...label, y };
    });
}
