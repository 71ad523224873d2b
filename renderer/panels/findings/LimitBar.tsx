import type { Limit, Measured } from '@core/rules/finding';
import { type JSX, useId } from 'react';

const HEIGHT = 12;
/** Drawn in these units; the style sheet says how wide it is on screen. */
const WIDTH = 178;

/**
 * Measured against its limit: the bar is what was measured, the stroke the limit, the hatch the tape's uncertainty around it.
 * A bar that ends inside the hatch is a close call. The limit stands at two thirds for `atLeast`, one third for `atMost`.
 */
export function LimitBar({
  measured,
  limit,
  uncertainty,
  tone,
}: {
  readonly measured: Measured;
  readonly limit: Limit;
  /** Two standard deviations, in the unit of the limit. */
  readonly uncertainty: number | null;
  readonly tone: 'bad' | 'accl' | 'ink2';
}): JSX.Element {
  const hatch = useId();
  const range = rangeOf(measured.value, limit.value, limit.bound);
  const at = (value: number): number => Math.min(WIDTH, Math.max(0, (value / range) * WIDTH));
  const limitAt = at(limit.value);
  const from = uncertainty === null ? limitAt : at(limit.value - uncertainty);
  const to = uncertainty === null ? limitAt : at(limit.value + uncertainty);
  return (
    <svg
      className="limit-bar"
      height={HEIGHT}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <defs>
        <pattern id={hatch} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0v4" stroke="var(--ink3)" strokeWidth="1" />
        </pattern>
      </defs>
      <path d={`M0 8.5H${WIDTH}`} stroke="var(--line)" />
      {[0, 0.25, 0.5, 0.75, 1].map((share) => (
        <path key={share} d={`M${Math.min(WIDTH - 0.5, share * WIDTH + 0.5)} 6.5v4`} stroke="var(--line)" />
      ))}
      {measured.value < 0 ? (
        // Less than nothing: an open bar back from the limit.
        <path
          d={`M${limitAt} 5.5H${Math.max(limitAt, 44)}v3H${limitAt}`}
          fill="none"
          stroke={`var(--${tone})`}
          strokeDasharray="3 2"
        />
      ) : (
        <rect x="0" y="5" width={Math.max(1.5, at(measured.value))} height="4" fill={`var(--${tone})`} />
      )}
      {to - from > 1 ? <rect x={from} y="1" width={to - from} height="10" fill={`url(#${hatch})`} /> : null}
      <path d={`M${limitAt} 0v12`} stroke="var(--ink)" strokeWidth="1.5" />
    </svg>
  );
}

/** The value at the right end of the bar. */
function rangeOf(measured: number, limit: number, bound: Limit['bound']): number {
  const natural = limit * (bound === 'atLeast' ? 1.3 : 4.5);
  return Math.max(natural, measured * 1.15, limit * 1.15, 1e-9);
}
