import type { Vec2 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import type { Shell } from '@core/engine/first-boat/first-boat';
import { compartmentOutline } from '@core/output/views/compartments';
import { compartmentInCut } from '@core/output/views/cuts';
import { boundsOf, PLAN, PROFILE, project, SECTION, type ViewFrame } from '@core/output/views/drawing';
import { planLines, profileLines } from '@core/output/views/hull-lines';
import { deriveLayout } from '@core/shape/layout/derive';
import { type JSX, useMemo } from 'react';

type Drawn = Extract<Shell, { ok: true }>;

interface Line {
  readonly id: string;
  readonly points: readonly Vec2[];
  readonly className: string;
}

const MARGIN_M = 0.25;

/** The boat as the numbers make it: profile, plan and a section through the saloon, to one scale. */
export function Sketch({ shell, stale }: { readonly shell: Drawn; readonly stale: boolean }): JSX.Element {
  const views = useMemo(() => viewsOf(shell), [shell]);
  return (
    <div className={stale ? 'sketch stale-drawing' : 'sketch'}>
      {views.map(({ name, lines, low, high }) => (
        <figure key={name}>
          <figcaption>{name}</figcaption>
          <svg
            role="img"
            aria-label={`${name} of the boat as typed`}
            viewBox={`${low[0]} ${-high[1]} ${high[0] - low[0]} ${high[1] - low[1]}`}
            preserveAspectRatio="xMidYMid meet"
          >
            {lines.map((line) => (
              <polygon
                key={line.id}
                className={line.className}
                points={line.points.map(([u, v]) => `${u.toFixed(3)},${(-v).toFixed(3)}`).join(' ')}
              />
            ))}
          </svg>
        </figure>
      ))}
    </div>
  );
}

function viewsOf(shell: Drawn) {
  const { surface, interior } = shell;
  const { compartments } = interior;
  const layout = deriveLayout({ compartments, panels: {}, newHoles: {}, newHoleCostM: 0 });
  const outlines = (frame: ViewFrame, shown: (id: string) => boolean): Line[] =>
    Object.keys(compartments)
      .filter(shown)
      .sort((a, b) => Number(isMeasured(compartments, a)) - Number(isMeasured(compartments, b)))
      .flatMap((id) =>
        compartmentOutline(layout, id, frame, surface).map((points, k) => ({
          id: `${id}/${k}`,
          points,
          className: isMeasured(compartments, id) ? 'room measured' : 'room',
        })),
      );
  const hull = (drawn: ReturnType<typeof profileLines>): Line[] =>
    drawn.flatMap((one) =>
      one.kind === 'stroke' ? [{ id: one.id, points: one.points, className: one.closed ? 'hull' : 'sheer' }] : [],
    );
  const framed = (name: string, lines: readonly Line[]) => {
    const bounds = boundsOf(lines.flatMap(({ points }) => points)) ?? { low: [0, 0], high: [1, 1] };
    const low: Vec2 = [bounds.low[0] - MARGIN_M, bounds.low[1] - MARGIN_M];
    const high: Vec2 = [bounds.high[0] + MARGIN_M, bounds.high[1] + MARGIN_M];
    return { name, lines: name === 'Plan' ? lines : [...lines, waterIn(low, high)], low, high };
  };
  const x = shell.interior.mainBulkheadM - 0.6;
  return [
    framed('Profile', [...outlines(PROFILE, (id) => nearSide(interior, id)), ...hull(profileLines(surface))]),
    framed('Plan', [...outlines(PLAN, (id) => compartments[id]?.kind !== 'bilge'), ...hull(planLines(surface))]),
    framed('Section', sectionLines(shell, layout, x)),
  ];
}

const waterIn = (low: Vec2, high: Vec2): Line => ({
  id: 'water',
  points: [
    [low[0], 0],
    [high[0], 0],
  ],
  className: 'water',
});

/** Seen from starboard: what lies on that side or on the centre hides the rest. */
const nearSide = (interior: Drawn['interior'], id: string): boolean => (interior.rooms[id]?.low[1] ?? 0) < 0;

const isMeasured = (compartments: Boat['compartments'], id: string): boolean => compartments[id]?.grade !== 'guessed';

function sectionLines({ surface, interior }: Drawn, layout: ReturnType<typeof deriveLayout>, x: number): Line[] {
  const section = surface.sectionAt(x);
  const sides = surface.offsetM === 0 ? [section] : [section, section.map(([y, z]): Vec2 => [-y, z])];
  const skin = sides.map((side) => side.map(([y, z]) => project(SECTION, [x, y, z])));
  const { compartments } = interior;
  // The sketch keeps to the outer skin: a shell of a centimetre is not seen at this scale.
  const rooms = Object.keys(compartments).flatMap((id) =>
    compartmentInCut(layout, id, { frame: SECTION, at: x }, { outer: skin, inner: skin }).map((points, k) => ({
      id: `${id}/${k}`,
      points,
      className: isMeasured(compartments, id) ? 'room measured' : 'room',
    })),
  );
  return [...rooms, ...skin.map((points, k) => ({ id: `hull/${k}`, points, className: 'hull' }))];
}
