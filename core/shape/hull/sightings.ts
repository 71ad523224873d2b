import { ONCE_IN_A_THOUSAND } from '../../base/formulas/distributions';
import type { Vec3 } from '../../base/vec';
import { gradeM } from '../../boat/accuracy';
import type { Boat, Grade } from '../../boat/schema/boat';
import { heightAbove, referenceAttitude } from './attitude';

/** A measured point of the hull against the water plane that all of them together give. */
export interface SightingResidual {
  readonly id: string;
  readonly kind: 'freeboards' | 'levelMarks';
  /** Height above that plane less the height read: + where the point stands higher than was read, metres. */
  readonly residualM: number;
  /** How far this reading is from what the others say without it; null where they do not fix the plane. */
  readonly offM: number | null;
}

export interface Sightings {
  readonly points: readonly SightingResidual[];
  /** The point to be measured again, where one stands out; its `offM` says by how much. */
  readonly suspect: string | null;
  /** Something is off, and the points are too few to tell which of them: another one would. */
  readonly isUndecided: boolean;
}

/** Two residuals within so much of each other point at neither reading. */
const APART = 1.05;

type Afloat = Pick<Boat, 'reference' | 'accuracy' | 'gradeOf' | 'weights'>;

/**
 * Residuals of the freeboards or level marks that give the reference attitude. With v the residual and e the distance from the
 * plane that the others fix, v / e is the redundancy of the reading, so that v / (s sqrt(v / e)) is its standardised residual.
 */
export function sightingResiduals(boat: Afloat): Sightings {
  const kind = Object.keys(boat.reference.freeboards).length > 0 ? 'freeboards' : 'levelMarks';
  const records: Readonly<Record<string, { at: Vec3; grade?: Grade | undefined }>> = boat.reference[kind];
  const ids = Object.keys(records).sort();
  if (ids.length === 0) return { points: [], suspect: null, isUndecided: false };
  const heightOf = (id: string): number =>
    kind === 'freeboards' ? (boat.reference.freeboards[id]?.freeboardM ?? 0) : 0;
  const whole = referenceAttitude(boat);
  const points = ids.map((id): SightingResidual & { readonly standardised: number } => {
    const record = records[id];
    const at = record?.at ?? [0, 0, 0];
    const residualM = heightAbove(whole, at) - heightOf(id);
    const others = Object.fromEntries(Object.entries(boat.reference[kind]).filter(([other]) => other !== id));
    // Fewer than three others fix no plane; what they would say of the fourth is said by assumption, not by measurement.
    const without =
      ids.length >= 4 ? referenceAttitude({ ...boat, reference: { ...boat.reference, [kind]: others } }) : null;
    const offM = without ? heightAbove(without, at) - heightOf(id) : null;
    const grade = boat.gradeOf?.[`reference.${kind}.${id}`] ?? record?.grade ?? 'taped';
    const deviation = gradeM(boat, grade) / 2;
    const standardised = offM === null || residualM * offM <= 0 ? 0 : Math.sqrt(residualM * offM) / deviation;
    return { id, kind, residualM, offM, standardised };
  });
  const ranked = [...points].sort((a, b) => b.standardised - a.standardised);
  const [worst, next] = ranked;
  // Data snooping after Baarda, at a significance of one in a thousand; quoted, not read.
  const isOff = worst !== undefined && worst.standardised > ONCE_IN_A_THOUSAND;
  const isUndecided = isOff && next !== undefined && worst.standardised < APART * next.standardised;
  return {
    points: points.map(({ id, residualM, offM }) => ({ id, kind, residualM, offM })),
    suspect: isOff && !isUndecided ? worst.id : null,
    isUndecided,
  };
}
