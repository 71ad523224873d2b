import { along, type Vec3 } from '../../base/vec';
import { holeInPlane, holesFor, type InHole, inHoleFor, placesBeside, pointInHole } from './hole-room';
import type { HoleNodes, HoseClass, Nodes, Passage } from './nodes';
import type { PortalFrame, Structure } from './structure';
import type { RoutingLine, RoutingView } from './types';
import type { Obstacle } from './world';

/** What a hole holds for a line that comes to it. */
export function inHoleSeen(view: RoutingView, line: RoutingLine, hole: HoleNodes['hole'], frame: PortalFrame): InHole {
  return inHoleFor(hole, frame, view.runsIn(frame.portal.cells[0]), line.keptInHoles ?? {});
}

/**
 * Where one line may pass the holes that are there: the nodes of its class, moved beside the runs that pass already. A panel with
 * a hole that is planned for the line is shut to the search: the line passes it where that was decided.
 */
export class Seats {
  private readonly seated = new Set<HoleNodes>();
  private readonly passages = new Map<number, Passage>();
  private readonly besides = new Map<number, ReadonlySet<string>>();

  constructor(
    private readonly view: RoutingView,
    private readonly line: RoutingLine,
    private readonly structure: Structure,
    private readonly nodes: Nodes,
    private readonly hose: HoseClass,
  ) {}

  /** Nodes of panels that the line passes through holes of its own. */
  *shutNodes(): Generator<number> {
    for (let node = 0; node < this.nodes.count; node += 1) {
      const panel = this.structure.frames[this.nodes.frame[node] as number]?.panel;
      if (panel?.holes.some((hole) => hole.forLines) && holesFor(panel, this.line.id).length > 0) yield node;
    }
  }

  /** Seats the holes of a cell: `put` moves a node, or takes it out (null). */
  take(cell: number, put: (node: number, at: Vec3 | null) => void): void {
    for (const one of this.nodes.holesOfCell[cell] as readonly HoleNodes[]) {
      if (this.seated.has(one)) continue;
      this.seated.add(one);
      const frame = this.structure.frames[one.frame] as PortalFrame;
      const inHole = inHoleSeen(this.view, this.line, one.hole, frame);
      // Only what the hole carries: the nodes of the class stand where they should.
      if (inHole.discs.length === 0 && inHole.resting.length === one.hole.carries.length) continue;
      const places = placesBeside(one.hole.diameterM, this.hose, inHole);
      const centre = holeInPlane(one.hole, frame);
      for (let pair = 0; pair < one.pairs; pair += 1) {
        const node = one.first + 2 * pair;
        const place = places[pair];
        if (!place) {
          put(node, null);
          put(node + 1, null);
          continue;
        }
        const at = pointInHole(centre, frame, place);
        const passage: Passage = { ...(this.nodes.passage[node] as Passage), at };
        for (const [side, k] of [
          [-1, node],
          [1, node + 1],
        ] as const) {
          put(k, along(at, frame.n, side * passage.stubM));
          this.passages.set(k, passage);
          this.besides.set(k, inHole.runs);
        }
      }
    }
  }

  passage(node: number): Passage | null {
    return this.passages.get(node) ?? this.nodes.passage[node] ?? null;
  }

  /** Runs that lie beside the node in its hole: they come nearer than a sight line allows, and the band parts them. */
  isBeside(node: number, obstacle: Obstacle): boolean {
    return obstacle.kind === 'run' && (this.besides.get(node)?.has(obstacle.id) ?? false);
  }

  hasBeside(node: number): boolean {
    return (this.besides.get(node)?.size ?? 0) > 0;
  }
}
