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
