import { type GettingIn, gettingIn } from '../assess/access/getting-in/getting-in';
import { metOnWay } from '../assess/access/getting-in/met-on-way';
import { boundsOfWay, carriedWay, type WayAround, WayRoom } from '../assess/access/getting-in/way-room';
import type { Pose, Vec3 } from '../base/vec';
import type { Shape } from '../boat/schema/boat';
import { sameValue } from '../boat/schema-walk';
import type { CarryAsk, CarryFacts, WayOut } from '../rules/carry-facts';
import { bodyOfShape, reachOfBody } from '../shape/space/carrying/carried-body';
import { waysIn } from '../shape/space/ways-in';
import { type About, aboutBox } from './service/around-stages';
import { compartmentOf, hull, layout } from './shape-stages';
import { boxKey, fixedSolidsInBox, solidsInBox } from './solid-stages';
import { compartmentKind, deeper, isPart, openings, pose, thing } from './source';
import type { ComputedStage, Read } from './store';

const NO_WAYS: readonly (readonly string[])[] = [];
/** Poses that a search for the way out may look at: it asks for the report with the deeper tries alone. */
export const DEEP_LOOKS = 4000;

/** Ways to a compartment from where people stand, each by its openings from the outermost; the empty one where they stand in it. */
const waysTo: ComputedStage<readonly (readonly string[])[]> = {
  id: 'waysTo',
  compute: (compartment, read) => {
    const cells = read(layout);
    const compartments = Object.fromEntries(
      Object.keys(cells.cellsOf).map((id) => [id, { kind: read(compartmentKind, id) ?? '' }]),
    );
    const found = new Map(
      waysIn(cells, { compartments, openings: read(openings) }, compartment).map((way) => [
        way.openings.join(' '),
        way.openings,
      ]),
    );
    return found.size > 0 ? [...found.values()] : NO_WAYS;
  },
  same: sameValue,
};

interface RoomAsk {
  readonly compartment: string;
  readonly way: readonly string[];
  /** The part that is carried past all others; null: past what is aboard already. */
  readonly past: string | null;
  /** Taken off before. */
  readonly without: readonly string[];
}

/** The room of one way with what stands about it, for every part that is carried there. Key: a `RoomAsk`. */
const wayRoom: ComputedStage<WayRoom | null> = {
  id: 'wayRoom',
  compute: (key, read) => {
    const { compartment, way: ids, past, without }: RoomAsk = JSON.parse(key);
    const way = carriedWay(read(layout), read(openings), ids, compartment);
    if (!way || way.passed.length === 0) return null;
    const around: WayAround = {
      layout: read(layout),
      hull: read(hull),
      kindOf: (id) => read(compartmentKind, id) ?? '',
    };
    const { low, high } = boundsOfWay(way, around);
    const solids = read(past === null ? fixedSolidsInBox : solidsInBox, boxKey(low, high));
    return new WayRoom(
      way,
      around,
      solids.filter(({ layer, owner }) => layer === 'furnishing' && owner !== past && !without.includes(owner)),
    );
  },
  same: () => false,
};

interface PartAsk extends CarryAsk {
  readonly part: string;
  readonly way: readonly string[];
}

/** A part carried in by one way. Key: a `PartAsk`. Null where it is not placed, or the openings do not lead there. */
const carried: ComputedStage<GettingIn | null> = {
  id: 'carried',
  compute: (key, read) => {
    const { part, way, looks, wantedM, longerM, past, without, explains }: PartAsk = JSON.parse(key);
    const [what, where, compartment] = [read(thing, part), read(pose, part), read(compartmentOf, part)];
    if (!what || !where || !compartment) return null;
    const ask: RoomAsk = { compartment, way, past: past === 'parts' ? part : null, without: without ?? [] };
    const room = read(wayRoom, JSON.stringify(ask));
    return (
      room &&
      gettingIn({ shape: what.shape, pose: where }, room, {
        looks,
        seed: part,
        wantedM: wantedM ?? 0,
        longerM: longerM ?? 0,
        explains: explains === true,
      })
    );
  },
  same: sameValue,
};

const carriedBy = (read: Read, part: string, way: readonly string[], ask: CarryAsk): GettingIn | null =>
  read(carried, JSON.stringify({ part, way, ...ask } satisfies PartAsk));

/** The same part out again past everything that is fitted after it. Key: part and openings, with spaces between. */
const wayOut: ComputedStage<WayOut | null> = {
  id: 'wayOut',
  compute: (key, read) => {
    const [part, ...way] = key.split(' ') as [string, ...string[]];
    const into = carriedBy(read, part, way, { looks: DEEP_LOOKS });
    const shape = read(thing, part)?.shape;
    if (into?.outcome !== 'goesIn' || !shape) return null;
    const straight = carriedBy(read, part, way, { looks: 0, past: 'parts' });
    const past =
      straight?.outcome === 'notFound' ? carriedBy(read, part, way, { looks: DEEP_LOOKS, past: 'parts' }) : straight;
    if (!past || (past.outcome === 'cannot' && past.proof !== 'ball')) return null;
    const { moves } = past.outcome === 'goesIn' ? past : into;
    const about = aboutMoves(moves, shape, read);
    const hoses = metOnWay(shape, moves, about.runs);
    if (past.outcome === 'goesIn') return { comesOut: true, isProved: true, behind: [], hoses };
    const others = about.things.filter(({ owner }) => owner !== part && read(isPart, owner));
    return { comesOut: false, isProved: past.outcome === 'cannot', behind: metOnWay(shape, moves, others), hoses };
  },
  same: sameValue,
};

function aboutMoves(moves: readonly Pose[], shape: Shape, read: Read): About {
  const reachM = reachOfBody(bodyOfShape(shape));
  const bound = (pick: (...all: number[]) => number, by: number): Vec3 =>
    [0, 1, 2].map((k) => pick(...moves.map(({ at }) => at[k] ?? 0)) + by) as unknown as Vec3;
  return read(aboutBox, boxKey(bound(Math.min, -reachM), bound(Math.max, reachM)));
}

export const carryFacts = (read: Read): CarryFacts => ({
  isDeeper: () => read(deeper),
  waysTo: (compartment) => read(waysTo, compartment),
  carriedIn: (partId, way, ask) => carriedBy(read, partId, way, ask),
  wayOut: (partId, way) => read(wayOut, [partId, ...way].join(' ')),
});
