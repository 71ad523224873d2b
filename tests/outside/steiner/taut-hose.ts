import type { Vec3 } from '@core/base/vec';
import { boatSchema } from '@core/boat/schema/boat';
import { routeLine } from '@core/runs/routing/route';
import type { RoutingLine, RoutingView } from '@core/runs/routing/types';
import { deriveLayout } from '@core/shape/layout/derive';
import type { BoxSolid } from '@core/shape/space/solids';
import { cellsTouching } from '@core/shape/space/things';
import { minus, normalised } from '../../support/geometry-oracle';
import { plainBox, plainLead, plainLine } from '../../support/plain-hose';
import type { SteinerAnswer, SteinerBox, SteinerScene } from './scene';

/** Thin and supple: what it needs more than a string is small. */
const HOSE_M = 0.002;
const BEND_M = 0.0025;

/** Length of the product's run in a scene, its ports pointing along the tabulated way; NaN where it found none. */
export function routedM(scene: SteinerScene, { path }: SteinerAnswer): number {
  const outcome = routeLine(viewOf(scene), lineOf(path), 'deep');
  return outcome.status === 'routed' ? outcome.lengthM : Number.NaN;
}

function viewOf({ rooms, boxes }: SteinerScene): RoutingView {
  const room = (k: number): string => `room${k}`;
  const compartments = rooms.map(({ low, high }, k) => [
    room(k),
    {
      name: room(k),
      view: 'plan',
      outline: [
        [low[0], low[1]],
        [high[0], low[1]],
        [high[0], high[1]],
        [low[0], high[1]],
      ],
      rangeM: [low[2], high[2]],
    },
  ]);
  const panels = rooms.slice(1).map((next, k) => {
    const before = rooms[k] as (typeof rooms)[number];
    const middle = (axis: 1 | 2): number =>
      (Math.max(before.low[axis], next.low[axis]) + Math.min(before.high[axis], next.high[axis])) / 2;
    return [room(k), { between: [room(k), room(k + 1)], near: [next.low[0], middle(1), middle(2)], rule: 'open' }];
  });
  const boat = boatSchema.parse({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'rooms in a row',
    compartments: Object.fromEntries(compartments),
    panels: Object.fromEntries(panels),
  });
  const layout = deriveLayout({
    compartments: boat.compartments,
    panels: boat.panels,
    newHoles: {},
    newHoleCostM: boat.newHoleCostM,
  });
  const solids = boxes.map(solidOf);
  const inCells = layout.cells.map(({ index }) =>
    solids.filter((solid) => cellsTouching(layout, solid, 0.01).includes(index)),
  );
  return { layout, hull: null, up: [0, 0, 1], thingsIn: (cell) => inCells[cell] ?? [], runsIn: () => [] };
}

function solidOf({ centre, half, yawDeg }: SteinerBox, k: number): BoxSolid {
  const [c, s] = [Math.cos((yawDeg * Math.PI) / 180), Math.sin((yawDeg * Math.PI) / 180)];
  return {
    ...plainBox(`box${k}`, centre, half),
    axes: [
      [c, s, 0],
      [-s, c, 0],
      [0, 0, 1],
    ],
  };
}

function lineOf(path: readonly Vec3[]): RoutingLine {
  const lead = (at: Vec3, towards: Vec3, thing: string) =>
    plainLead(at, normalised(minus(towards, at)), HOSE_M, { thing });
  const [first, second] = path as readonly [Vec3, Vec3];
  const [last, before] = [path.at(-1), path.at(-2)] as [Vec3, Vec3];
  return plainLine(lead(first, second, 'a'), lead(last, before, 'b'), { radiusM: HOSE_M, bendRadiusM: BEND_M });
}
