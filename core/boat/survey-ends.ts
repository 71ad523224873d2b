import { type BoatRecipe, freeId } from './edits';
import type { Boat } from './schema/boat';

/** Ends of readings: points and datums by id or name, and the edits that enter readings as they come. */

type Survey = NonNullable<Boat['survey']>;
export type Reading = NonNullable<Survey['readings']>[string];
type Draft = Parameters<BoatRecipe>[0];
export interface SurveyEnd {
  readonly kind: 'point' | 'datum';
  readonly id: string;
}

/** Ids of a survey, and names that belong to one record alone, by which readings may call a point or datum. */
export function endNames(survey: Pick<Survey, 'points' | 'datums'>): ReadonlyMap<string, SurveyEnd> {
  const found = new Map<string, SurveyEnd | null>();
  const records = [
    ...Object.entries(survey.points ?? {}).map(([id, { name }]) => ({ kind: 'point' as const, id, name })),
    ...Object.entries(survey.datums ?? {}).map(([id, { name }]) => ({ kind: 'datum' as const, id, name })),
  ];
  for (const { kind, id, name } of records) {
    if (name !== undefined) found.set(name, found.has(name) ? null : { kind, id });
  }
  // An id counts before a name, a point before a datum.
  for (const { kind, id } of records.reverse()) found.set(id, { kind, id });
  return new Map([...found].flatMap(([name, end]) => (end === null ? [] : [[name, end] as const])));
}

/** Id of the point or datum that is called so, whatever the case; null where none is. */
export function endCalled(survey: Survey | undefined, typed: string): string | null {
  const wanted = typed.trim().toLowerCase();
  for (const [name, { id }] of endNames(survey ?? {})) if (name.toLowerCase() === wanted) return id;
  return null;
}

/** The next number for a reading: readings are called by number, as on a sheet. */
export const nextReadingId = (survey: Survey | undefined): string =>
  String(1 + Math.max(0, ...Object.keys(survey?.readings ?? {}).map((id) => (/^\d{1,9}$/.test(id) ? Number(id) : 0))));

/** Enters or changes a reading. Its ends are ids or names; what is called by no name yet becomes a point. */
export const readingEntered =
  (id: string, reading: Reading): BoatRecipe =>
  (boat) => {
    boat.survey ??= {};
    const from = endMade(boat, reading.from);
    const to = endMade(boat, reading.to);
    boat.survey.readings ??= {};
    boat.survey.readings[id] = { ...reading, from, to };
  };

/** Removes a reading; points stay, for other readings may come. */
export const readingRemoved =
  (id: string): BoatRecipe =>
  (boat) => {
    if (boat.survey?.readings) delete boat.survey.readings[id];
  };

/** Removes a point or datum with the readings that begin or end there. */
export const surveyEndRemoved =
  ({ kind, id }: SurveyEnd): BoatRecipe =>
  (boat) => {
    const { survey } = boat;
    if (!survey) return;
    const names = endNames(survey as Survey);
    const isIt = (name: string): boolean => names.get(name)?.id === id && names.get(name)?.kind === kind;
    for (const [reading, { from, to }] of Object.entries(survey.readings ?? {})) {
      if (isIt(from) || isIt(to)) delete survey.readings?.[reading];
    }
    if (kind === 'point') delete survey.points?.[id];
    else delete survey.datums?.[id];
  };

/** A new datum; its id follows from its name. */
export const datumAdded =
  (id: string, datum: NonNullable<Survey['datums']>[string]): BoatRecipe =>
  (boat) => {
    boat.survey ??= {};
    boat.survey.datums ??= {};
    boat.survey.datums[id] = { ...datum, at: [...datum.at] };
  };

function endMade(boat: Draft, typed: string): string {
  const name = typed.trim();
  const known = endCalled(boat.survey as Survey, name);
  if (known !== null) return known;
  const survey = boat.survey ?? {};
  survey.points ??= {};
  const id = freeEndId(survey as Survey, name);
  survey.points[id] = id === name ? {} : { name };
  return id;
}

/** Letters, digits, dots and hyphens of a name: what an id may hold; free among points and datums. */
export function freeEndId(survey: Survey | undefined, name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/^[^A-Za-z0-9]+|-+$/g, '')
    .slice(0, 40);
  return freeId({ ...survey?.points, ...survey?.datums }, plain === '' ? 'point' : plain);
}
