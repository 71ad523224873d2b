import { pointInBoat, type Vec2 } from '@core/base/vec';
import type { PortAt } from '@core/boat/joins';
import { project } from '@core/output/views/drawing';
import { lineInHand } from '../../store/select';
import type { PortPressed } from '../../tools/gesture';
import { type Scene, thingsIn, type View } from '../scene';
import { toScreen } from '../sheet';
import { linesOfThing, type Placed } from '../things';

/** A view, or the detail that enlarges one. */
type Looking = Pick<View, 'frame' | 't' | 'cut'>;

export interface PortDrawn extends PortAt {
  readonly at: Vec2;
}

/** From this far a port is taken, pixels: by the tool that joins, and beside the body of the picked thing. */
const JOIN_PX = 14;
const HANDLE_PX = 6;
/** A press so near to the middle of a small thing means the thing. */
const MIDDLE_PX = 5;

export const portsOfThing = ({ id, thing, pose }: Placed, { frame, t }: Looking): readonly PortDrawn[] =>
  Object.entries(thing.ports).map(([port, { at }]) => ({
    thing: id,
    port,
    at: toScreen(t, project(frame, pointInBoat(pose, at))),
  }));

/** Ports of all things that a view shows. */
export const portsIn = (scene: Scene, looking: Looking): readonly PortDrawn[] =>
  thingsIn(scene.placed, looking.cut, looking.frame, null).flatMap((placed) => portsOfThing(placed, looking));

const far = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
const nearest = (ports: readonly PortDrawn[], at: Vec2): PortDrawn | undefined =>
  [...ports].sort((a, b) => far(a.at, at) - far(b.at, at))[0];

/** The port that the joining tool means: the nearest within reach, else the nearest of the thing under the pointer. */
export function portMeant(scene: Scene, looking: Looking, at: Vec2, thing: string | null): PortAt | null {
  const near = nearest(portsIn(scene, looking), at);
  const own = near && far(near.at, at) <= JOIN_PX ? near : nearest(ofThing(scene, looking, thing), at);
  return own ? { thing: own.thing, port: own.port } : null;
}

function ofThing(scene: Scene, looking: Looking, thing: string | null): readonly PortDrawn[] {
  const placed = thing === null ? undefined : scene.placed.find(({ id }) => id === thing);
  return placed ? portsOfThing(placed, looking) : [];
}

/** Ends of the picked line, and ports of the picked thing: a drag from one of them leads a line elsewhere. */
export function handleUnder(scene: Scene, looking: Looking, at: Vec2): PortPressed | null {
  const { selection, alsoSelected, boat } = scene;
  if (alsoSelected.length > 0) return null;
  const line = selection?.kind === 'line' ? lineInHand(selection) : null;
  const own = line === null ? undefined : boat.lines[line];
  if (line !== null && own) {
    for (const end of ['from', 'to'] as const) {
      const { thing, port } = own[end];
      const here = ofThing(scene, looking, thing).find((one) => one.port === port);
      if (here && far(here.at, at) <= HANDLE_PX + 2) return { thing, port, line: { id: line, end } };
    }
    return null;
  }
  const placed = selection?.kind === 'thing' ? scene.placed.find(({ id }) => id === selection.id) : undefined;
  if (!placed || (looking.cut && thingsIn([placed], looking.cut, looking.frame, null).length === 0)) return null;
  const near = nearest(portsOfThing(placed, looking), at);
  if (!near || far(near.at, at) > HANDLE_PX || far(middleOf(placed, looking), at) <= MIDDLE_PX) return null;
  return { thing: near.thing, port: near.port };
}

function middleOf(placed: Placed, { frame, t }: Looking): Vec2 {
  const { bounds } = linesOfThing(placed, frame);
  return toScreen(t, [(bounds.low[0] + bounds.high[0]) / 2, (bounds.low[1] + bounds.high[1]) / 2]);
}
