import { isHarmedByWater } from '../assess/flooding/electrics';
import { type Basin, basinOf, type FloodOutcome, floodOutcomes } from '../assess/flooding/flood';
import { type SeaArrival, seaReach as seaReachOf } from '../assess/flooding/sea-reach';
import {
  type DrilledHole,
  joinedAt,
  type Spread,
  spreadOf,
  type Waterway,
  waterways as waterwaysOf,
} from '../assess/flooding/waterways';
import { sameValue } from '../boat/schema-walk';
import type { FloodFacts } from '../rules/flood-facts';
import type { WaterPlane } from '../shape/hull/types';
import type { Solid } from '../shape/space/solids';
import { circuit } from './circuit-stages';
import { run } from './final-run';
import { compartmentOf, hull, layout } from './shape-stages';
import { solidsOf } from './solid-stages';
import { compartment, flooding, line, lineIds, lineKind, openings, pose, thing, thingIds } from './source';
import type { ComputedStage, Read } from './store';
import { greatestHeelWaters } from './water-stages';

/** Share of a compartment that water can fill, where the boat file is silent: stores and joinery take the rest. Common practice, from memory. */
const PERMEABILITY = 0.85;

/** Holes that runs need and that nobody has drilled or planned. */
const drilledHoles: ComputedStage<readonly DrilledHole[]> = {
  id: 'drilledHoles',
  compute: (_, read) =>
    read(lineIds).flatMap((id) => {
      const outcome = read(run, id);
      if (outcome.status !== 'routed') return [];
      return outcome.crossings
        .filter(({ holeId, panelId }) => holeId === null && read(layout).panels[panelId]?.rule !== 'open')
        .map(({ panelId, at, holeAt, diameterM }) => ({ panelId, at: holeAt ?? at, diameterM }));
    }),
  same: sameValue,
};

/** Where water gets from one compartment into another. Key: `clear`, or `blocked` when limber holes are clogged. */
const waterways: ComputedStage<readonly Waterway[]> = {
  id: 'waterways',
  compute: (limbers, read) =>
    waterwaysOf({
      layout: read(layout),
      openings: read(openings),
      limberHoles: limbers === 'blocked' ? {} : (read(flooding)?.limberHoles ?? {}),
      drilled: read(drilledHoles),
    }),
  same: sameValue,
};

/** Things that water harms, with the compartment of each. */
const floodable: ComputedStage<readonly { readonly thing: string; readonly compartment: string }[]> = {
  id: 'floodable',
  compute: (_, read) =>
    read(thingIds).flatMap((id) => {
      const what = read(thing, id);
      const compartment = what && isHarmedByWater(what) ? read(compartmentOf, id) : null;
      return compartment === null ? [] : [{ thing: id, compartment }];
    }),
  same: sameValue,
};

/** Envelope of a thing; null while it is not placed, and of what is soft. */
const envelope = (read: Read, id: string): Solid | null =>
  read(solidsOf, id).find(({ layer }) => layer === 'furnishing') ?? null;

/** Lines that the sea reaches from a through-hull. */
const seaReach: ComputedStage<readonly SeaArrival[]> = {
  id: 'seaReach',
  compute: (throughHull, read) => seaReachOf(read(circuit), throughHull),
  same: sameValue,
};

const seaOf = (read: Read, down: string | undefined): WaterPlane => {
  const sea = read(greatestHeelWaters).find((water) => water.down === down);
  if (!sea) throw new Error(`seaOf: expected a side of the greatest heel, got ${down}`);
  return sea.water;
};

/** How water spreads from the level of the sea on: stays as it is while holes move below that. Key: `LIMBERS|DOWN`. */
const spread: ComputedStage<Spread> = {
  id: 'spread',
  compute: (key, read) => {
    const [limbers, down] = key.split('|');
    return spreadOf(read(waterways, limbers), seaOf(read, down));
  },
  same: sameValue,
};

/** Where the water stands in the end. Key: `LIMBERS|DOWN|COMPARTMENT`, any one of those that are open to one another. */
const basin: ComputedStage<Basin> = {
  id: 'basin',
  compute: (key, read) => {
    const [limbers, down, start = ''] = key.split('|');
    const space = {
      layout: read(layout),
      hull: read(hull),
      spread: read(spread, `${limbers}|${down}`),
      permeability: (id: string) => read(compartment, id)?.permeability ?? read(flooding)?.permeability ?? PERMEABILITY,
    };
    return basinOf(start, space, seaOf(read, down));
  },
  same: sameValue,
};

/** What comes of joints that let the sea in from one through-hull. Key: `clear|ID`, or `blocked|ID` when limber holes are clogged. */
const floods: ComputedStage<readonly FloodOutcome[]> = {
  id: 'floods',
  compute: (key, read) => {
    const cut = key.indexOf('|');
    const limbers = key.slice(0, cut);
    const ways = read(waterways, limbers);
    const rooms = read(layout);
    return floodOutcomes(key.slice(cut + 1), {
      circuit: read(circuit),
      ways,
      // one basin for all that is open to one another
      basin: (start, { down }) => {
        const [first = start] = joinedAt(start, read(spread, `${limbers}|${down}`), 0);
        return read(basin, `${limbers}|${down}|${first}`);
      },
      reach: (id) => read(seaReach, id),
      waters: read(greatestHeelWaters),
      pose: (id) => read(pose, id),
      solid: (id) => envelope(read, id),
      compartmentAt: (at, id) => rooms.compartmentAt(at) ?? read(compartmentOf, id),
      electrics: read(floodable),
      lengthM: (id) => {
        const outcome = read(run, id);
        return outcome.status === 'routed' ? outcome.lengthM : null;
      },
      boreM: (id) => {
        const kind = read(line, id)?.kind;
        return (kind === undefined ? undefined : read(lineKind, kind)?.boreM) ?? null;
      },
    });
  },
  same: sameValue,
};

/** What rules about flooding ask, over reads that are recorded. */
export const floodFacts = (read: Read): FloodFacts => ({
  flooding: () => read(flooding),
  seaReach: (throughHull) => read(seaReach, throughHull),
  floods: (throughHull, limbers) => read(floods, `${limbers}|${throughHull}`),
  waterways: (limbers) => read(waterways, limbers),
  envelope: (thingId) => envelope(read, thingId),
});
