import * as portable from '../../base/portable';
import { along, distance, type Vec3 } from '../../base/vec';
import type { CapsuleSolid } from '../../shape/space/solids';
import { asLaid } from './end-variants';
import { sharedOwner } from './leads';
import { arcSweep, lengthOf, pointOnArc, primLength } from './prims';
import { leadStraightM } from './straights';
import type { Lead, Routed, RoutingLine } from './types';
import { sharedStretch } from './validate';

/** Chords stand for arcs within this; the capsules grow by it. */
const SAGITTA_M = 0.0008;

/**
 * A run as the runs of later rank see it: chords with a radius, the rigid end fittings and, through panels that it drills, a
 * stub of the hole's radius. The stretch beside a port belongs to the port, so that lines which share it can let it pass.
 */
export function runCapsules(asked: RoutingLine, routed: Routed): CapsuleSolid[] {
  const line = asLaid(asked, routed);
  const capsules: CapsuleSolid[] = [];
  const carries = line.wishes?.carries;
  const minded = carries === 'power' || carries === 'signal' ? { carries } : {};
  const put = (from: Vec3, to: Vec3, radius: number, owner: string): void => {
    capsules.push({
      type: 'capsule',
      id: `${line.id}/${String(capsules.length).padStart(3, '0')}`,
      owner,
      label: line.label,
      layer: 'run',
      from,
      to,
      radius,
      ...minded,
    });
  };
  const [near, far] = [stretchOf(line.from, line), stretchOf(line.to, line)];
  const total = lengthOf(routed.prims);
  const holes = holeStretches(line, routed);
  const ownerAt = (s: number): string =>
    s < near
      ? sharedOwner(line.from)
      : s > total - far
        ? sharedOwner(line.to)
        : (holes.find(({ from, to }) => s > from && s < to)?.owner ?? line.id);
  let start = 0;
  for (const prim of routed.prims) {
    const length = primLength(prim);
    if (prim.kind === 'line') {
      // Cut where the ownership changes.
      const cuts = [
        0,
        near - start,
        total - far - start,
        ...holes.flatMap(({ from, to }) => [from - start, to - start]),
        length,
      ]
        .filter((s) => s >= 0 && s <= length)
        .sort((a, b) => a - b);
      for (let k = 0; k + 1 < cuts.length; k += 1) {
        const [a, b] = [cuts[k] as number, cuts[k + 1] as number];
        if (b - a < 1e-9) continue;
        const d: Vec3 = [
          (prim.to[0] - prim.from[0]) / length,
          (prim.to[1] - prim.from[1]) / length,
          (prim.to[2] - prim.from[2]) / length,
        ];
        put(along(prim.from, d, a), along(prim.from, d, b), line.radiusM, ownerAt(start + (a + b) / 2));
      }
    } else {
      const turn = arcSweep(prim);
      const chords = Math.max(1, Math.ceil(turn / (2 * portable.acos(Math.max(0, 1 - SAGITTA_M / prim.radius)))));
      const bow = prim.radius * (1 - portable.cos(turn / chords / 2));
      for (let c = 0; c < chords; c += 1)
        put(
          pointOnArc(prim, (turn * c) / chords),
          pointOnArc(prim, (turn * (c + 1)) / chords),
          line.radiusM + bow,
          ownerAt(start + (length * (c + 0.5)) / chords),
        );
    }
    start += length;
  }
  for (const lead of [line.from, line.to]) {
    const fittingM = lead.fittingM ?? lead.rigidM;
    if (fittingM > 0 && lead.fittingRadiusM > line.radiusM)
      put(lead.at, along(lead.at, lead.direction, fittingM), lead.fittingRadiusM, sharedOwner(lead));
    if (lead.portAt) put(lead.portAt, lead.at, lead.fittingRadiusM, sharedOwner(lead));
  }
  for (const crossing of routed.crossings) {
    if (crossing.holeId !== null || !crossing.along) continue;
    const half = crossing.alongM ?? 0;
    put(
      along(crossing.at, crossing.along, -half),
      along(crossing.at, crossing.along, half),
      crossing.diameterM / 2,
      line.id,
    );
  }
  return capsules;
}

/** Of a hole that several runs may share, what the capsules on both sides of it carry as owner. */
export const holeOwner = (panelId: string, holeId: string): string => `hole:${panelId}/${holeId}`;

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly owner: string;
}

/** Stretches at holes that are there already, along the run: until a bend has had room to part hoses that lie side by side. */
function holeStretches(line: RoutingLine, routed: Routed): Stretch[] {
  const stretches: Stretch[] = [];
  let start = 0;
  const left = routed.crossings.filter(({ holeId }) => holeId !== null);
  for (const prim of routed.prims) {
    const next = left[0];
    const length = primLength(prim);
    if (next && prim.kind === 'line') {
      const at = distance(prim.from, next.at);
      if (at <= length + 1e-6 && Math.abs(at + distance(next.at, prim.to) - length) < 1e-6) {
        const reach = (next.alongM ?? 0) + 3 * line.radiusM + line.bendRadiusM;
        const owner = holeOwner(next.panelId, next.holeId as string);
        stretches.push({ from: start + at - reach, to: start + at + reach, owner });
        left.shift();
      }
    }
    start += length;
  }
  return stretches;
}

const stretchOf = (lead: Lead, line: RoutingLine): number =>
  sharedStretch({ leadM: leadStraightM(lead, line.radiusM) }, line);
