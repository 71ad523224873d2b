import type { Vec2 } from '@core/base/vec';
import type { JSX } from 'react';
import type { Drawn } from './answers';
import type { View } from './views';

/** Space between the views, share of the boat's length. */
const BETWEEN = 0.06;

/** The boat as the numbers make it, as on a lines plan: profile, section beside it, plan below it, all to one scale. */
export function Sketch({ shell, stale }: { readonly shell: Drawn; readonly stale: boolean }): JSX.Element {
  const { profile, plan, section } = shell.views;
  const gap = BETWEEN * shell.dimensions.lengthM;
  const [width, height] = [
    sizeOf(profile)[0] + gap + sizeOf(section)[0],
    Math.max(sizeOf(profile)[1], sizeOf(section)[1]) + gap + sizeOf(plan)[1],
  ];
  const top = Math.max(profile.high[1], section.high[1]);
  const under = Math.max(sizeOf(profile)[1], sizeOf(section)[1]) + gap;
  return (
    <svg
      className={stale ? 'sketch stale-drawing' : 'sketch'}
      role="img"
      aria-label="Profile, section and plan of the boat as typed"
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="xMidYMid meet"
    >
      <Drawing view={profile} at={[-profile.low[0], top]} />
      <Drawing view={section} at={[sizeOf(profile)[0] + gap - section.low[0], top]} />
      <Drawing view={plan} at={[-plan.low[0], under + plan.high[1]]} />
    </svg>
  );
}

const sizeOf = ({ low, high }: View): Vec2 => [high[0] - low[0], high[1] - low[1]];

function Drawing({ view, at }: { readonly view: View; readonly at: Vec2 }): JSX.Element {
  return (
    <g transform={`translate(${at[0]} ${at[1]})`}>
      {view.lines.map(({ id, className, points, closed }) => (
        <path
          key={id}
          className={className}
          d={`M${points.map(([u, v]) => `${u.toFixed(3)} ${(-v).toFixed(3)}`).join('L')}${closed ? 'Z' : ''}`}
        />
      ))}
    </g>
  );
}
