import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { type JSX, useRef } from 'react';
import { useSize } from '../board/use-size';
import { degreesText, figure } from '../panels/format';

export interface ImmersionLine {
  readonly id: string;
  readonly label: string;
  /** [heel, + with starboard down, degrees; depth below the water, metres] */
  readonly curve: readonly (readonly [number, number])[];
}

const HEIGHT = 168;
const MARGIN = { left: 34, right: 8, top: 10, bottom: 30 };
const HEEL_TICKS = [-45, -30, -15, 0, 15, 30, 45];
/** Labels at the end of a line keep this far from each other, pixels. */
const LABEL_PX = 12;

/** Depth of every hole against heel: the water is the shaded half, the chosen hole the heavy line. */
export function ImmersionChart({
  lines,
  chosen,
  heels,
  title,
}: {
  readonly lines: readonly ImmersionLine[];
  readonly chosen: string | null;
  /** Heels of the run-states, + with starboard down, degrees. */
  readonly heels: readonly number[];
  readonly title: string;
}): JSX.Element {
  const host = useRef<HTMLDivElement>(null);
  const { width } = useSize(host);
  const depths = lines.flatMap(({ curve }) => curve.map(([, depth]) => depth));
  const heel = scaleLinear()
    .domain([-45, 45])
    .range([MARGIN.left, Math.max(MARGIN.left + 1, width - MARGIN.right)]);
  const depth = scaleLinear()
    .domain([Math.min(-0.2, ...depths), Math.max(0.2, ...depths)])
    .nice(5)
    .range([MARGIN.top, HEIGHT - MARGIN.bottom]);
  const path = line<readonly [number, number]>(
    ([deg]) => heel(deg),
    ([, metres]) => depth(metres),
  );
  const [left = 0, right = 0] = heel.range();
  const [top = 0, bottom = 0] = depth.range();
  const selected = lines.find(({ id }) => id === chosen);
  return (
    <div className="chart" ref={host}>
      <p className="chart-title">{title}</p>
      {width > 0 ? (
        <svg width={width} height={HEIGHT} aria-hidden="true">
          <rect x={left} y={depth(0)} width={right - left} height={Math.max(0, bottom - depth(0))} className="water" />
          {depth.ticks(4).map((metres) => (
            <g key={metres}>
              <path className="chart-grid" d={`M${left} ${depth(metres)}H${right}`} />
              <text x={left - 5} y={depth(metres) + 4} textAnchor="end">
                {figure(-metres, 1)}
              </text>
            </g>
          ))}
          {HEEL_TICKS.map((deg) => (
            <g key={deg}>
              <path className="chart-base" d={`M${heel(deg)} ${bottom}v4`} />
              <text x={heel(deg)} y={bottom + 15} textAnchor={deg === -45 ? 'start' : deg === 45 ? 'end' : 'middle'}>
                {degreesText(Math.abs(deg))}
              </text>
            </g>
          ))}
          <text x={left} y={HEIGHT - 2}>
            Port side down
          </text>
          <text x={right} y={HEIGHT - 2} textAnchor="end">
            Starboard side down
          </text>
          <path className="chart-base" d={`M${left} ${bottom}H${right}`} />
          <path className="waterline" d={`M${left} ${depth(0)}H${right}`} />
          {heels.map((deg) => (
            <path key={deg} className="run-state" d={`M${heel(deg)} ${top}V${bottom}`} />
          ))}
          {lines.map(({ id, curve }) =>
            id === chosen ? null : <path key={id} className="curve" d={path([...curve]) ?? ''} />,
          )}
          {selected ? <path className="curve chosen" d={path([...selected.curve]) ?? ''} /> : null}
          {labelsOf(lines, chosen, (metres) => depth(metres)).map(({ id, label, y }) => (
            <text key={id} className={id === chosen ? 'label chosen' : 'label'} x={right - 3} y={y} textAnchor="end">
              {label}
            </text>
          ))}
        </svg>
      ) : null}
    </div>
  );
}

/** Names at the right ends of the lines, pushed apart; where there is no room for all, the chosen one stays. */
function labelsOf(
  lines: readonly ImmersionLine[],
  chosen: string | null,
  yOf: (metres: number) => number,
): readonly { readonly id: string; readonly label: string; readonly y: number }[] {
  const ends = lines
    .map(({ id, label, curve }) => ({ id, label, y: yOf(curve.at(-1)?.[1] ?? 0) - 3 }))
    .sort((a, b) => Number(b.id === chosen) - Number(a.id === chosen) || a.y - b.y);
  const kept: { id: string; label: string; y: number }[] = [];
  for (const end of ends) if (kept.every(({ y }) => Math.abs(y - end.y) >= LABEL_PX)) kept.push(end);
  return kept;
}
