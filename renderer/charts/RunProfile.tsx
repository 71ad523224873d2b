import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { type JSX, type PointerEvent, useId, useRef } from 'react';
import { useSize } from '../board/use-size';

/** A height along the run: metres along it, metres above the water. */
export type Height = readonly [alongM: number, heightM: number];

export interface ProfileMark {
  readonly key: string;
  readonly alongM: number;
  readonly words: string;
}

export interface HighOrLow {
  readonly alongM: number;
  readonly heightM: number;
  readonly words: string;
  readonly isFault: boolean;
}

interface Props {
  readonly label: string;
  readonly run: readonly Height[];
  /** Colour of the line: what flows in it. */
  readonly content: 'sea' | 'fresh' | 'plus' | 'draw';
  /** Heights of the heeled water under or over each place of the run. */
  readonly waters: readonly { readonly words: string; readonly points: readonly Height[] }[];
  readonly crossings: readonly ProfileMark[];
  readonly clips: readonly ProfileMark[];
  readonly extremes: readonly HighOrLow[];
  readonly ends: readonly [string, string];
  readonly cursor: { readonly alongM: number; readonly words: string } | null;
  /** Figures of the axes. */
  heightFigure(metres: number): string;
  alongFigure(metres: number): string;
  point(alongM: number | null): void;
}

const LEFT_PX = 46;
const RIGHT_PX = 92;
const TOP_PX = 16;
const BOTTOM_PX = 30;
/** Beyond the run by this much, metres, heeled waters and the level are drawn. */
const ROOM_M = 0.06;
/** The level is drawn along when the run is no farther from it, metres; farther off it would shrink the run to a line. */
const LEVEL_WITHIN_M = 0.45;

/** Height of a run along its length, both to one scale; the floating water is zero. */
export function RunProfile(props: Props): JSX.Element {
  const { run, content, waters, crossings, clips, extremes, ends, cursor, heightFigure, alongFigure, point } = props;
  const frame = useRef<HTMLDivElement>(null);
  const size = useSize(frame);
  const clip = useId();
  const width = Math.max(size.width, 320);
  const height = Math.max(size.height, 90);
  const long = run[run.length - 1]?.[0] ?? 1;
  const heights = run.map(([, h]) => h);
  const [least, most] = [Math.min(...heights), Math.max(...heights)];
  const low = least > 0 && least <= LEVEL_WITHIN_M ? 0 : least;
  const high = most < 0 && most >= -LEVEL_WITHIN_M ? 0 : most;
  const range = [low - ROOM_M, high + ROOM_M] as const;
  const scale = Math.min(
    (width - LEFT_PX - RIGHT_PX) / long,
    (height - TOP_PX - BOTTOM_PX) / Math.max(0.1, range[1] - range[0]),
  );
  const x = scaleLinear()
    .domain([0, long])
    .range([LEFT_PX, LEFT_PX + long * scale]);
  const middle = (range[0] + range[1]) / 2;
  const centre = (TOP_PX + height - BOTTOM_PX) / 2;
  const y = (h: number): number => centre - (h - middle) * scale;
  const [top, bottom] = [TOP_PX, height - BOTTOM_PX];
  const right = x(long);
  const path = line<Height>()
    .x(([at]) => x(at))
    .y(([, h]) => y(h));
  const ticks = scaleLinear()
    .domain([middle - (bottom - centre) / scale, middle + (centre - top) / scale])
    .ticks(Math.max(2, Math.floor((bottom - top) / 26)));
  const pointAt = (event: PointerEvent<SVGSVGElement>): void => {
    const at = x.invert(event.clientX - event.currentTarget.getBoundingClientRect().left);
    point(at < 0 || at > long ? null : at);
  };
  return (
    <div className="chart run-profile" ref={frame}>
      <svg
        width={width}
        height={height}
        role="img"
        aria-label={props.label}
        onPointerMove={pointAt}
        onPointerLeave={() => point(null)}
      >
        <clipPath id={clip}>
          <rect x={LEFT_PX} y={top} width={Math.max(0, right - LEFT_PX)} height={Math.max(0, bottom - top)} />
        </clipPath>
        {ticks.map((tick) => (
          <g key={tick}>
            <line className="chart-grid" x1={LEFT_PX} x2={right} y1={y(tick)} y2={y(tick)} />
            <text className="chart-tick" x={LEFT_PX - 6} y={y(tick) + 4} textAnchor="end">
              {heightFigure(tick)}
            </text>
          </g>
        ))}
        {crossings.map((one) => (
          <g key={one.key}>
            <rect className="profile-panel" x={x(one.alongM) - 2} y={top} width={4} height={bottom - top} />
            <text className="chart-tick" x={x(one.alongM)} y={bottom + 12} textAnchor="middle">
              {one.words}
            </text>
          </g>
        ))}
        <g clipPath={`url(#${clip})`}>
          <path className="waterline" d={`M${LEFT_PX} ${y(0)}H${right}`} />
          {waters.map((one) => (
            <path key={one.words} className="waterline heeled" d={path([...one.points]) ?? ''} />
          ))}
          <path className={`profile-run ${content}`} d={path([...run]) ?? ''} />
        </g>
        {apart([
          { words: 'water', y: y(0) },
          ...waters.map((one) => ({ words: one.words, y: y(one.points[one.points.length - 1]?.[1] ?? 0) })),
        ])
          .filter((label) => label.y >= top - 4 && label.y <= bottom + 4)
          .map((label) => (
            <text key={label.words} className="profile-water" x={right + 6} y={label.y + 4}>
              {label.words}
            </text>
          ))}
        {clips.map((one) => (
          <g key={one.key} className="profile-clip">
            <title>{one.words}</title>
            <path d={archAt(x(one.alongM), y(heightOf(run, one.alongM)))} />
          </g>
        ))}
        {extremes.map((one) => (
          <text
            key={one.words}
            className={one.isFault ? 'profile-extreme fault' : 'profile-extreme'}
            x={x(one.alongM)}
            y={one.heightM >= middle ? y(one.heightM) - 8 : Math.min(y(one.heightM) + 16, bottom - 5)}
            textAnchor={one.alongM < long * 0.15 ? 'start' : one.alongM > long * 0.85 ? 'end' : 'middle'}
          >
            {one.words}
          </text>
        ))}
        <line className="chart-base" x1={LEFT_PX} x2={right} y1={bottom} y2={bottom} />
        <text className="chart-label" x={LEFT_PX} y={height - 3}>
          {ends[0]}
        </text>
        <text className="chart-label" x={right} y={height - 3} textAnchor="end">
          {`${ends[1]}, ${alongFigure(long)}`}
        </text>
        {cursor ? (
          <>
            <line className="chart-cursor" x1={x(cursor.alongM)} x2={x(cursor.alongM)} y1={top} y2={bottom} />
            <circle className="chart-dot" cx={x(cursor.alongM)} cy={y(heightOf(run, cursor.alongM))} r={3} />
            <text
              className="chart-label chart-value"
              x={x(cursor.alongM)}
              y={11}
              textAnchor={cursor.alongM < long / 2 ? 'start' : 'end'}
            >
              {cursor.words}
            </text>
          </>
        ) : null}
      </svg>
    </div>
  );
}

/** The height of a run at a place of it, between its points. */
export function heightOf(run: readonly Height[], alongM: number): number {
  for (let k = 0; k + 1 < run.length; k += 1) {
    const [[s, h], [t, g]] = [run[k] as Height, run[k + 1] as Height];
    if (alongM <= t || k + 2 === run.length) return t > s ? h + (g - h) * Math.min(1, (alongM - s) / (t - s)) : g;
  }
  return run[0]?.[1] ?? 0;
}

const archAt = (x: number, y: number): string => `M${x - 4.5} ${y + 4}V${y}a4.5 4.5 0 0 1 9 0V${y + 4}`;

const LABEL_PX = 13;
function apart<T extends { readonly y: number }>(labels: readonly T[]): readonly T[] {
  let free = Number.NEGATIVE_INFINITY;
  return [...labels]
    .sort((a, b) => a.y - b.y)
    .map((label) => {
      const at = Math.max(label.y, free);
      free = at + LABEL_PX;
      return { ...label, y: at };
    });
}
