import type { Vec2 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import { compartmentOutline } from '@core/output/views/compartments';
import { compartmentInCut, hullCut } from '@core/output/views/cuts';
import { boundsOf, PLAN, PROFILE, SECTION, type ViewFrame } from '@core/output/views/drawing';
import { planLines, profileLines } from '@core/output/views/hull-lines';
import type { Interior } from '@core/shape/form/interior';
import type { HullSurface } from '@core/shape/hull/types';
import { deriveLayout } from '@core/shape/layout/derive';
import type { Layout } from '@core/shape/layout/types';

interface Line {
  readonly id: string;
  readonly points: readonly Vec2[];
  readonly closed: boolean;
  readonly className: string;
}

export interface View {
  readonly name: string;
  readonly lines: readonly Line[];
  readonly low: Vec2;
  readonly high: Vec2;
}

export interface Views {
  readonly profile: View;
  readonly plan: View;
  readonly section: View;
}

const MARGIN_M = 0.25;

/** The three views of a hull and its interior, as lines. */
export function viewsOf(interior: Interior, surface: HullSurface): Views {
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
          closed: true,
          className: isMeasured(compartments, id) ? 'room measured' : 'room',
        })),
      );
  const hull = (drawn: ReturnType<typeof profileLines>): Line[] =>
    drawn.flatMap((one) =>
      one.kind === 'stroke'
        ? [{ id: one.id, points: one.points, closed: one.closed, className: one.closed ? 'hull' : 'sheer' }]
        : [],
    );
  const framed = (name: string, lines: readonly Line[]): View => {
    const bounds = boundsOf(lines.flatMap(({ points }) => points)) ?? { low: [0, 0], high: [1, 1] };
    const low: Vec2 = [bounds.low[0] - MARGIN_M, bounds.low[1] - MARGIN_M];
    const high: Vec2 = [bounds.high[0] + MARGIN_M, bounds.high[1] + MARGIN_M];
    return { name, lines: name === 'Plan' ? lines : [...lines, waterIn(low, high)], low, high };
  };
  const x = interior.mainBulkheadM - 0.6;
  return {
    profile: framed('Profile', [...outlines(PROFILE, (id) => nearSide(interior, id)), ...hull(profileLines(surface))]),
    plan: framed('Plan', [...outlines(PLAN, (id) => compartments[id]?.kind !== 'bilge'), ...hull(planLines(surface))]),
    section: framed('Section', sectionLines(surface, interior, layout, x)),
  };
}

const waterIn = (low: Vec2, high: Vec2): Line => ({
  id: 'water',
  points: [
    [low[0], 0],
    [high[0], 0],
  ],
  closed: false,
  className: 'water',
});

/** Seen from starboard: what lies on that side or on the centre hides the rest. */
const nearSide = (interior: Interior, id: string): boolean => (interior.rooms[id]?.low[1] ?? 0) < 0;

const isMeasured = (compartments: Boat['compartments'], id: string): boolean => compartments[id]?.grade !== 'guessed';

function sectionLines(surface: HullSurface, interior: Interior, layout: Layout, x: number): Line[] {
  const { compartments } = interior;
  const cut = { frame: SECTION, at: x };
  const hull = hullCut(surface, cut);
  const rooms = Object.keys(compartments).flatMap((id) =>
    compartmentInCut(layout, id, cut, hull).map((points, k) => ({
      id: `${id}/${k}`,
      points,
      closed: true,
      className: isMeasured(compartments, id) ? 'room measured' : 'room',
    })),
  );
  return [...rooms, ...hull.outer.map((points, k) => ({ id: `hull/${k}`, points, closed: true, className: 'hull' }))];
}
