import { dot } from '../../base/vec';
import { type DrawnFace, type FaceKey, facesAgainst, facesOf } from '../../boat/interior/faces';
import type { FaceMove } from '../../boat/interior/shaping';
import type { Boat, Compartment } from '../../boat/schema/boat';

/** A side of a compartment. */
export interface Side {
  readonly id: string;
  readonly key: FaceKey;
}

const nameOf = ({ id, key }: Side): string => `${id}/${key}`;

/**
 * Sides that are one thing aboard: both faces of a bulkhead, and whatever else stands against either of them. Who moves one of
 * them moves all, or the drawing tears. The group of one side, itself first.
 */
export function sidesWith(compartments: Boat['compartments'], side: Side): readonly Side[] {
  const group = [side];
  const known = new Set([nameOf(side)]);
  for (const one of group)
    for (const other of facesAgainst(compartments, one.id, one.key)) {
      if (known.has(nameOf(other))) continue;
      known.add(nameOf(other));
      group.push({ id: other.id, key: other.key });
    }
  return group;
}

/** All of a group moved as one: as far as the first of it goes outward. */
export function groupMoved(
  compartments: Boat['compartments'],
  group: readonly Side[],
  by: number,
): readonly FaceMove[] {
  const normalOf = ({ id, key }: Side): DrawnFace['normal'] =>
    facesOf(compartments[id] as Compartment).find((face) => face.key === key)?.normal ?? [0, 0, 0];
  const first = group[0] && normalOf(group[0]);
  return first ? group.map((side) => ({ ...side, by: by * Math.sign(dot(normalOf(side), first)) })) : [];
}
