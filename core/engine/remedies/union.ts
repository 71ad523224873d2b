import type { z } from 'zod';
import * as portable from '../../base/portable';
import { degrees, dot, subtract, type Vec3 } from '../../base/vec';
import { type Draft, freeId, placed } from '../../boat/edits';
import type { Part } from '../../boat/schema/boat';
import type { part } from '../../boat/schema/things';
import { type Candidate, panelsBetween, placesIn, type Trouble } from './candidates';

/** A union stands out this far on either side of its panel, and is this much thicker than its hose: typical, no source. */
const STANDS_OUT_M = 0.03;
const THICKER_M = 0.012;
const MASS_KG = 0.1;

/**
 * The line cut in two at a panel, with a union through it: each half has an end of its own, and no run of one length has to bend
 * through the hole. A hose that comes in one length cannot be cut.
 */
export function unionCandidates(trouble: Trouble): readonly Candidate[] {
  const { line, kind, asked, lineId, layout, arrangementId } = trouble;
  if (kind.what === 'cable' || (line.supplied && !line.supplied.mayCut)) return [];
  const outM = Math.max(STANDS_OUT_M, asked.radiusM + THICKER_M);
  return panelsBetween(trouble).flatMap((panel): Candidate[] => {
    const radiusM = asked.radiusM + THICKER_M / 2;
    const half = panel.thicknessM / 2 + outM;
    return placesIn(panel, asked, layout, radiusM).map((at, k): Candidate => {
      const isForward = dot(subtract(asked.from.at, at), panel.normal) < 0;
      const port = (side: number): z.input<typeof part>['ports'] => ({
        [side < 0 ? 'a' : 'b']: { at: [side * half, 0, 0], direction: [side, 0, 0], medium: line.medium },
      });
      const union: z.input<typeof part> = {
        name: `Union for ${line.name}`.slice(0, 120),
        kind: 'bulkheadUnion',
        shape: { type: 'cylinder', diameterM: rounded(2 * radiusM), lengthM: rounded(2 * half), axis: 'x' },
        massKg: MASS_KG,
        ports: { ...port(-1), ...port(1) },
        source: 'typical',
      };
      return {
        id: `union ${panel.id} ${k + 1}`,
        change: 'union',
        what: { panel: panel.id, diameterM: rounded(2 * asked.radiusM + THICKER_M / 2) },
        panel,
        recipe: (boat) => {
          const own = boat.lines[lineId];
          if (!own) return;
          const unionId = freeId({ ...boat.parts, ...boat.fixtures }, `${lineId}-union`);
          const halfId = secondHalf(boat.lines, lineId);
          boat.parts[unionId] = union as Draft<Part>;
          placed(arrangementId, unionId, { at, ...alongX(panel.normal) })(boat);
          const { to, from } = own.ends;
          boat.lines[halfId] = {
            ...own,
            name: `${own.name}, second half`.slice(0, 120),
            from: { thing: unionId, port: isForward ? 'b' : 'a' },
            to: { ...own.to },
            ends: to ? { to } : {},
          };
          own.to = { thing: unionId, port: isForward ? 'a' : 'b' };
          own.ends = from ? { from } : {};
        },
        lines: [lineId, secondHalf(trouble.boat.lines, lineId)],
      };
    });
  });
}

const secondHalf = (lines: Readonly<Record<string, unknown>>, lineId: string): string =>
  freeId(lines, `${lineId}-half`);

/** The turn of a thing whose local x points along a direction. */
const alongX = ([x, y, z]: Vec3): { yawDeg: number; pitchDeg: number; rollDeg: number } => ({
  yawDeg: degrees(portable.atan2(y, x)),
  pitchDeg: degrees(portable.asin(Math.max(-1, Math.min(1, -z)))),
  rollDeg: 0,
});

const rounded = (metres: number): number => Math.round(metres * 1e4) / 1e4;
