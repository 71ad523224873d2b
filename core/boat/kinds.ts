/** Kinds that several floors ask about, each group in one place. */

/** Compartments in which people stand, sit or sleep: parts are carried from there, hoses keep out of them. */
export const LIVING_SPACES: ReadonlySet<string> = new Set(['cabin', 'cockpitWell', 'heads']);

/** Pumps of the set that draw or press its sea water. */
export const SET_PUMPS: ReadonlySet<string> = new Set(['pumpModule', 'feedPump']);
