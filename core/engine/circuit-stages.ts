import type { Line, Thing } from '../boat/schema/boat';
import { type Circuit, circuitOf, suctionLines } from '../runs/circuit/circuit';
import { line, lineIds, thing, thingIds } from './source';
import { type ComputedStage, identical } from './store';

/** Ports, parts and lines as a graph: knows no places, so that no move touches it. */
export const circuit: ComputedStage<Circuit> = {
  id: 'circuit',
  compute: (_, read) => {
    const parts: Record<string, Thing> = {};
    for (const id of read(thingIds)) {
      const found = read(thing, id);
      if (found) parts[id] = found;
    }
    const lines: Record<string, Line> = {};
    for (const id of read(lineIds)) {
      const found = read(line, id);
      if (found) lines[id] = found;
    }
    return circuitOf({ fixtures: {}, parts, lines });
  },
  same: identical,
};

const drawn: ComputedStage<ReadonlySet<string>> = {
  id: 'suctionLines',
  compute: (_, read) => suctionLines(read(circuit)),
  same: (a, b) => a.size === b.size && [...a].every((id) => b.has(id)),
};

/** Whether the water in a line is drawn, not pushed: what the line says, else what the circuit shows. */
export const isSuction: ComputedStage<boolean> = {
  id: 'isSuction',
  compute: (lineId, read) => read(line, lineId)?.suction ?? read(drawn).has(lineId),
  same: identical,
};
