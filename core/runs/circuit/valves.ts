import type { Thing } from '../../boat/schema/boat';

const SHUT_WORDS = /^(shut|closed?|off)$/i;
const saysShut = (state: string): boolean => SHUT_WORDS.test(state);

const saysOpen = (state: string): boolean => /^(open|on)$/i.test(state);

/**
 * States in which a valve without drawn passages lets nothing through: those that are called shut, closed or off; of a plain valve with two
 * states of which neither is called open either, the one in which it does not usually stand, else the second. A check, needle or relief valve
 * has none.
 */
export function shutStates({ valve }: Pick<Thing, 'valve'>): readonly string[] {
  if (!valve || isHandless(valve.kind)) return [];
  const named = valve.states.filter(saysShut);
  const isPlain = valve.kind !== 'threeWay' && valve.states.length === 2;
  if (named.length > 0 || !isPlain || valve.states.some(saysOpen)) return named;
  const usual = valve.normally ?? valve.states[0];
  return valve.states.filter((state) => state !== usual);
}

/** Valves that nobody puts by hand into a state in which they hold back what comes. */
const isHandless = (kind: NonNullable<Thing['valve']>['kind']): boolean =>
  kind === 'check' || kind === 'needle' || kind === 'relief';

/** Whether a hand can shut the thing: a seacock by what it is, a valve by having a state in which it lets nothing through. */
export const canBeShut = (thing: Thing | null | undefined): boolean =>
  thing?.valve ? shutStates(thing).length > 0 : thing?.kind === 'seacock';

/** A seacock is shut and opened, whether or not its valve was entered. */
const SEACOCK_STATES = ['open', 'shut'] as const;

/** States into which a hand can put the thing; empty where it can't change the way of the water. */
export function handStates(thing: Thing | undefined): readonly string[] {
  if (!thing) return [];
  if (!thing.valve) return thing.kind === 'seacock' ? SEACOCK_STATES : [];
  return isHandless(thing.valve.kind) || thing.valve.states.length < 2 ? [] : thing.valve.states;
}

/** State in which the thing stands when nothing else is said: as usual, else the first that is not shut. Null without states. */
export function usualState(thing: Thing | undefined): string | null {
  const states = handStates(thing);
  if (states.length === 0) return null;
  const shut = thing ? shutStates(thing) : [];
  return (
    thing?.valve?.normally ?? states.find((state) => !shut.includes(state) && !saysShut(state)) ?? states[0] ?? null
  );
}

/** A state in which the thing lets water through: the usual one where that does, else the first that is not shut. */
export function openState(thing: Thing | undefined): string {
  const shut = thing ? shutStates(thing) : [];
  const open = handStates(thing).filter((state) => !shut.includes(state) && !saysShut(state));
  const usual = usualState(thing);
  return usual !== null && open.includes(usual) ? usual : (open[0] ?? usual ?? 'open');
}

/** Whether the thing itself is shut in that state, where it is an end: a seacock, a tap. */
export function isShutIn(thing: Thing, state: string | undefined): boolean {
  if (state === undefined) return false;
  return thing.valve ? shutStates(thing).includes(state) : saysShut(state);
}

export type Valves = Readonly<Record<string, string>>;

/** The same positions with nothing said of one valve. */
export const withoutValve = (valves: Valves, id: string): Valves =>
  Object.fromEntries(Object.entries(valves).filter(([other]) => other !== id));

/** More positions than this are not tried one by one. */
export const MOST_COMBINATIONS = 4096;

export interface Combinations {
  readonly all: readonly Valves[];
  /** True: only those in which at most two valves stand otherwise than usual. */
  readonly isBounded: boolean;
}

/** Every combination of states of the things, those nearest to the usual first; bounded above 4,096. */
export function combinationsOf(things: Readonly<Record<string, Thing>>, ids: readonly string[]): Combinations {
  const valves = [...ids].sort().flatMap((id) => {
    const states = handStates(things[id]);
    const usual = usualState(things[id]);
    return states.length > 0 && usual !== null ? [{ id, usual, others: states.filter((s) => s !== usual) }] : [];
  });
  const count = valves.reduce((product, { others }) => product * (others.length + 1), 1);
  const isBounded = count > MOST_COMBINATIONS;
  const start: Record<string, string> = Object.fromEntries(valves.map(({ id, usual }) => [id, usual]));
  const byChanges: Valves[][] = [[start]];
  const most = isBounded ? 2 : valves.length;
  const extend = (from: number, base: Valves, changes: number): void => {
    if (changes >= most) return;
    for (let i = from; i < valves.length; i++) {
      const valve = valves[i];
      if (!valve) continue;
      for (const state of valve.others) {
        const next = { ...base, [valve.id]: state };
        byChanges[changes + 1] ??= [];
        byChanges[changes + 1]?.push(next);
        extend(i + 1, next, changes + 1);
      }
    }
  };
  extend(0, start, 0);
  return { all: byChanges.flat(), isBounded };
}
