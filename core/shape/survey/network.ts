import { ONCE_IN_A_THOUSAND } from '../../base/formulas/distributions';
import { AXES, type Axis, distance, type Vec3 } from '../../base/vec';
import { gradeM } from '../../boat/accuracy';
import { type Boat, LIMITS } from '../../boat/schema/boat';
import { endNames } from '../../boat/survey-ends';

/** A boat's survey as a network: which places are sought, which are given, and what each reading says of them. */
export interface Network {
  /** Points whose places are sought, by their place in this list. */
  readonly free: readonly FreePoint[];
  /** Points whose places the file gives. */
  readonly given: Readonly<Record<string, Vec3>>;
  readonly observations: readonly Observation[];
  readonly leftOut: readonly LeftOut[];
}

export interface FreePoint {
  readonly id: string;
  /** Where the drawn boat has it, as a start; coordinates that nothing says are null. */
  readonly near: NearPlace;
}
export type NearPlace = readonly [number | null, number | null, number | null];

/** One end of a reading: a place sought, by its place in `free`, or one that is given. */
export type End = { readonly free: number } | { readonly at: Vec3 };

/**
 * What one reading says: `length` is the straight distance from end to end; `along` the difference of one coordinate, `to` less
 * `from`, times `sign`; `gap` the size of such a difference, without side.
 */
export interface Observation {
  readonly id: string;
  readonly from: End;
  readonly to: End;
  readonly model:
    | { readonly type: 'length' }
    | { readonly type: 'along' | 'gap'; readonly axis: Axis; readonly sign: 1 | -1 };
  readonly valueM: number;
  /** One standard deviation, metres: half the grade. */
  readonly sigmaM: number;
}

/** A reading that says nothing of any place sought. */
export interface LeftOut {
  readonly reading: string;
  readonly why: 'noAxis' | 'sameEnds' | 'bothGiven' | 'notPositive' | 'twoPlanes' | 'tooManyPoints';
  /** Of `bothGiven`: the reading less what the two places say, metres, where that is more than its grade explains. */
  readonly contradictsM?: number;
}

type Survey = NonNullable<Boat['survey']>;
type Reading = NonNullable<Survey['readings']>[string];

/** How a reading is graded that does not say: a tape held straight between two marks. */
const USUAL_GRADE = 'measured';

/**
 * Reads the survey of a boat. An end that neither a point nor a datum is named for is a point whose place is sought.
 * `near`: where the drawn boat has a point, by its id.
 */
export function networkOf(
  { survey, accuracy }: Pick<Boat, 'survey' | 'accuracy'>,
  near: Readonly<Record<string, NearPlace>> = {},
): Network {
  const names = endNames(survey ?? {});
  const given: Record<string, Vec3> = {};
  for (const [id, { at }] of Object.entries(survey?.points ?? {})) if (at) given[id] = at;
  const free: FreePoint[] = [];
  const places = new Map<string, number>();
  const observations: Observation[] = [];
  const leftOut: LeftOut[] = [];

  const endOf = (name: string): { readonly end: End; readonly datum: string | null; readonly id: string } | null => {
    const known = names.get(name);
    const id = known?.id ?? name;
    const datum = known?.kind === 'datum' ? survey?.datums?.[id] : undefined;
    if (datum) return { end: { at: datum.at }, datum: id, id };
    const at = Object.hasOwn(given, id) ? given[id] : undefined;
    if (at) return { end: { at }, datum: null, id };
    const place = places.get(id) ?? free.length;
    if (place === free.length) {
      if (place === LIMITS.surveyPoints) return null;
      places.set(id, place);
      free.push({ id, near: Object.hasOwn(near, id) ? (near[id] ?? NOWHERE) : NOWHERE });
    }
    return { end: { free: place }, datum: null, id };
  };

  for (const [id, reading] of sorted(survey?.readings ?? {})) {
    const [from, to] = [endOf(reading.from), endOf(reading.to)];
    if (!from || !to) {
      leftOut.push({ reading: id, why: 'tooManyPoints' });
      continue;
    }
    const model = modelOf(reading, survey ?? {}, from.datum, to.datum);
    const why: LeftOut['why'] | null =
      typeof model === 'string'
        ? model
        : from.id === to.id && from.datum === to.datum
          ? 'sameEnds'
          : 'at' in from.end && 'at' in to.end
            ? 'bothGiven'
            : model.type !== 'along' && reading.valueM <= 0
              ? 'notPositive'
              : null;
    const sigmaM = gradeM({ accuracy }, reading.grade ?? USUAL_GRADE) / 2;
    if (why !== null || typeof model === 'string') {
      const offM =
        why === 'bothGiven' && typeof model !== 'string' && 'at' in from.end && 'at' in to.end
          ? reading.valueM - between(from.end.at, to.end.at, model)
          : 0;
      const contradicts = Math.abs(offM) > ONCE_IN_A_THOUSAND * sigmaM;
      leftOut.push({ reading: id, why: why ?? 'noAxis', ...(contradicts ? { contradictsM: offM } : {}) });
      continue;
    }
    observations.push({ id, from: from.end, to: to.end, model, valueM: reading.valueM, sigmaM });
  }
  // A point that no reading names is sought all the same, and will be said not to be fixed.
  for (const id of Object.keys(survey?.points ?? {})) if (!Object.hasOwn(given, id)) endOf(id);
  return { free, given, observations, leftOut };
}

/** What a reading of that kind gives between two places, metres. */
function between(from: Vec3, to: Vec3, model: Observation['model']): number {
  if (model.type === 'length') return distance(from, to);
  const along = to[model.axis] - from[model.axis];
  return model.type === 'gap' ? Math.abs(along) : along * model.sign;
}

const NOWHERE: NearPlace = [null, null, null];

function modelOf(
  reading: Reading,
  survey: Survey,
  from: string | null,
  to: string | null,
): Observation['model'] | LeftOut['why'] {
  const datums = [from, to].flatMap((id) => (id === null ? [] : [survey.datums?.[id]]));
  const planes = datums.filter((datum) => datum?.axis !== undefined);
  const plane = planes[0];
  const sign = plane?.reversed === true ? -1 : 1;
  const axis = AXES.indexOf(plane?.axis ?? 'z') as Axis;
  switch (reading.kind) {
    case 'height':
      return { type: 'along', axis: 2, sign: plane?.axis === 'z' ? sign : 1 };
    case 'offset':
      if (planes.length > 1) return 'twoPlanes';
      return plane ? { type: 'along', axis, sign } : 'noAxis';
    case 'distance':
    case 'diagonal':
      if (planes.length > 1) return 'twoPlanes';
      // To a plane the tape is held square.
      return plane ? { type: 'gap', axis, sign: 1 } : { type: 'length' };
  }
}

const sorted = <T>(records: Readonly<Record<string, T>>): readonly (readonly [string, T])[] =>
  Object.entries(records).sort(([a], [b]) => a.localeCompare(b, 'en', { numeric: true }));
