/** For sorting records by id, in the order of code units: the same on every machine. */
export const byId = (a: { readonly id: string }, b: { readonly id: string }): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
