import { deviationDeg, fieldOfLongWire, fieldTurning } from '../../base/formulas/compass-deviation';
import { fieldOfWay } from '../../base/formulas/current-field';
import { along, distance, norm, subtract, type Vec3 } from '../../base/vec';
import { arcSweep, placesOn } from '../../runs/routing/prims';
import type { Prim } from '../../runs/routing/types';
import { awayFrom } from '../../runs/routing/wishes/prices';
import { directionTo, kindOfLine, pointsAlong, runOrNone } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';

/** A helmsman does not see a degree, and an autopilot hunts on two. Common practice, no source. */
const LIMITS = inBoth({ turnDeg: 1 });

/** The current of a pump swings the compass while it runs, and only then. */
export const nearCompass = defineRule({
  id: 'power/near-compass',
  question: 'Do power cables leave every compass alone?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Iron nearby.',
    'What brings the current to the ends of the cable.',
    'Whether a pair is twisted.',
    'Magnets in speakers and motors.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => facts.lineIds().filter((id) => facts.wishesOf(id)?.carries === 'power'),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const line = facts.line(lineId);
    const kind = kindOfLine(lineId, facts);
    const passed = compassesBy(lineId, run.prims, facts);
    const [first] = passed;
    if (!line || !kind || !first) return [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const amperes = currentOf(lineId, facts);
    // Two conductors laid side by side share the width of the pair.
    const apartM = (kind.conductors ?? 1) >= 2 ? kind.outsideM / 2 : 0;
    if (amperes === null)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noCurrent',
          enterNext: 'Enter the current in the cable',
          missing: { path: `lines.${lineId}.currentA`, unit: 'A' },
          related: [first.owner],
          at: first.at,
          data: { compass: first.label, awayM: first.awayM, isPair: apartM > 0, amperes },
        },
      ];
    const corners = cornersOf(run.prims);
    const { teslas, owner, label, at, centre, awayM } = passed
      .map((one) => ({ ...one, teslas: fieldAt(one, corners, amperes, apartM) }))
      .reduce((worst, one) => (one.teslas > worst.teslas ? one : worst));
    const share = teslas / fieldTurning(LIMITS[facts.profile()].turnDeg);
    const { met, ...compared } = judge({
      value: awayM,
      // The field of one conductor falls with the distance, that of a pair with its square.
      limit: awayM * (apartM > 0 ? Math.sqrt(share) : share),
      bound: 'atLeast',
      unit: 'm',
      grade: facts.gradesAlong(owner, directionTo(centre, at)),
    });
    const longWire = fieldOfLongWire({ amperes, awayM, apartM });
    const data = {
      compass: label,
      awayM,
      isPair: apartM > 0,
      amperes,
      microtesla: teslas * 1e6,
      ...deviationDeg(teslas),
      longWireMicrotesla: longWire * 1e6,
      longWireDeg: deviationDeg(longWire).worstDeg,
    };
    const said = { ...compared, related: [owner], at, data };
    if (met) return [{ outcome: 'pass', ...said }];
    return [{ outcome: 'fail', severity: 'fault', reason: 'tooNear', ...said }];
  },
});

interface Passed {
  readonly owner: string;
  readonly label: string;
  readonly centre: Vec3;
  /** The place of the cable that is nearest to the middle of the compass, and how far it is. */
  readonly at: Vec3;
  readonly awayM: number;
}

/** Compasses that the cable passes within their zone, the nearest first. */
function compassesBy(lineId: string, prims: readonly Prim[], facts: Facts): readonly Passed[] {
  const zones = facts.zonesAlong(lineId).filter((zone) => zone.kind === 'compass');
  if (zones.length === 0) return [];
  const points = pointsAlong(prims);
  const passed = zones.flatMap((zone): Passed[] => {
    const centre = facts.pose(zone.owner)?.at;
    if (!centre || !points.some(({ at }) => awayFrom(zone, at) < zone.reachM)) return [];
    const near = [...points.map(({ at }) => at), ...prims.flatMap(({ from, to }) => [from, to])];
    const at = near.reduce((least, one) => (distance(one, centre) < distance(least, centre) ? one : least));
    return [{ owner: zone.owner, label: zone.label, centre, at, awayM: distance(at, centre) }];
  });
  return passed.sort((a, b) => a.awayM - b.awayM);
}

/** Chords of a bend turn by no more than this. */
const CHORD_RAD = Math.PI / 36;

function cornersOf(prims: readonly Prim[]): readonly Vec3[] {
  const ways = prims.map((prim) => {
    const count = prim.kind === 'arc' ? Math.max(1, Math.ceil(arcSweep(prim) / CHORD_RAD)) : 1;
    const placeAt = placesOn(prim);
    return Array.from({ length: count }, (_, k) => placeAt((k + 1) / count));
  });
  return prims[0] ? [prims[0].from, ...ways.flat()] : [];
}

/** Field in the middle of a compass, tesla; the two conductors of a pair lie one behind the other as seen from there. */
function fieldAt({ centre, at }: Passed, corners: readonly Vec3[], amperes: number, apartM: number): number {
  if (apartM === 0) return norm(fieldOfWay(corners, amperes, centre));
  const way = directionTo(centre, at);
  const [near, far] = [apartM / 2, -apartM / 2].map((byM) => fieldOfWay(corners, amperes, along(centre, way, byM)));
  return near && far ? norm(subtract(near, far)) : 0;
}

/** What the line says, else what the thing at one of its ends draws. */
function currentOf(lineId: string, facts: Facts): number | null {
  const line = facts.line(lineId);
  if (!line) return null;
  const drawn = [line.to.thing, line.from.thing].map((id) => facts.thing(id)?.electric?.drawA);
  return line.currentA ?? drawn.find((amperes) => amperes !== undefined) ?? null;
}
