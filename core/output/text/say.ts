import type { Finding } from '../../rules/finding';
import { digits, lengthText } from './quantity-text';

export interface Said {
  readonly title: string;
  readonly why: string;
}
export interface SayInput {
  /** What people call the subject. */
  readonly subject: string;
  readonly name: (id: string) => string;
  /** The same for what stands in the way: of a compartment it is a side, in the words of `label` where they are known. */
  readonly obstacle: (id: string, label?: string) => string;
  readonly finding: Finding;
  readonly data: Finding['data'];
}
/** A title and why it matters, from what a finding holds. */
export type Say = (input: SayInput) => Said;
export type RuleWords = {
  readonly [outcome in Finding['outcome']]?: Readonly<Record<string, Say>>;
} & {
  /** Where `measured, limit` would say nothing: what stands in its place. */
  readonly compared?: (
    finding: Extract<Finding, { readonly outcome: 'fail' | 'pass' }>,
    length: (metres: number) => string,
  ) => string;
};

// Reasons that several rules give.
export const NO_RUN_YET = 'It has no run yet.';
export const TOO_MANY_VALVES =
  'There are too many valves behind it to try all settings; of those with two valves turned none shuts it.';

// Values of a finding as words; what is not there reads 0 or nothing.
export const number = (value: unknown): number => (typeof value === 'number' ? value : 0);
export const word = (value: unknown): string => (value === null || value === undefined ? '' : String(value));
export const mm = (value: unknown): string => lengthText(number(value));
/** `1 bend`, `3 bends` */
export const counted = (count: number, one: string, many: string): string =>
  count === 1 ? `1 ${one}` : `${count} ${many}`;

/** What stands in the way, in its own words. */
export const blocker = ({ data, obstacle }: Pick<SayInput, 'data' | 'obstacle'>): string =>
  data.blocker ? obstacle(word(data.blocker), word(data.blockerLabel)) : 'something without a name';

/** `upright`, `heeled 20° to port`, `upright, bow down 2°` */
export const heel = (data: SayInput['data']): string =>
  `${
    data.down === 'port' || data.down === 'starboard'
      ? `heeled ${digits(number(data.heelDeg), 0)}° to ${data.down}`
      : 'upright'
  }${trim(number(data.trimDeg))}`;
const trim = (bowDownDeg: number): string =>
  bowDownDeg === 0 ? '' : `, bow ${bowDownDeg > 0 ? 'down' : 'up'} ${digits(Math.abs(bowDownDeg), 1)}°`;
