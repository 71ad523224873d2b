/** For sorting records by id, in the order of code units: the same on every machine. */
export const byId = (a: { readonly id: string }, b: { readonly id: string }): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0;

/** The same for what goes by a key: findings, rows of the list. */
export const byKey = (a: { readonly key: string }, b: { readonly key: string }): number =>
  a.key < b.key ? -1 : a.key > b.key ? 1 : 0;

/** Records with their ids, sorted by id: what comes of a walk over them is the same however the file has them. */
export const inOrder = <T>(records: Readonly<Record<string, T>>): readonly (readonly [id: string, record: T])[] =>
  Object.keys(records)
    .sort()
    .map((id) => [id, records[id] as T]);

/** Figures in metres or degrees that are no farther apart are alike: rounding, here or on another machine, moves a run that much. */
export const ALIKE = 1e-6;

/** The first of them all with the least figure; between figures that are alike rounding does not choose. */
export const leastBy = <T>(first: T, rest: readonly T[], figure: (one: T) => number): T =>
  rest.reduce((least, one) => (figure(one) < figure(least) - ALIKE ? one : least), first);

/** The same for the greatest. */
export const mostBy = <T>(first: T, rest: readonly T[], figure: (one: T) => number): T =>
  leastBy(first, rest, (one) => -figure(one));
