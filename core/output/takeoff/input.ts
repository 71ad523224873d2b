import type { Boat, Line, LineEndFitting, LineKind, Part } from '../../boat/schema/boat';
import type { Crossing } from '../../runs/routing/types';
import type { Spare } from '../../runs/spare/spare';
import type { Drilling } from './hole-place';

/** What the list is made from: parts and lines with what the engine knows of where they are. */
export interface TakeoffInput {
  readonly parts: readonly TakeoffPart[];
  readonly lines: readonly TakeoffLine[];
  readonly panels: Readonly<
    Record<string, { readonly name: string; readonly thicknessM: number; readonly material: string }>
  >;
  readonly suppliedLengths: readonly SuppliedLength[];
  readonly allowances: Allowances;
  readonly practice: 'isoSmallCraft' | 'usVoluntary';
  /** From where a hole is drilled and measured. */
  drilling(panelId: string, at: Crossing['at']): Drilling;
  /** Name of a compartment. */
  compartmentName(id: string): string;
}

export interface TakeoffPart {
  readonly id: string;
  readonly part: Part;
  /** Name of the compartment, null in undrawn space; undefined: not placed. */
  readonly place: string | null | undefined;
}

export interface TakeoffLine {
  readonly id: string;
  readonly line: Line;
  readonly kindId: string;
  readonly kind: LineKind;
  readonly fittings: readonly [LineEndFitting, LineEndFitting];
  readonly ends: readonly [TakeoffEnd, TakeoffEnd];
  /** Null when the line is blocked. */
  readonly run: { readonly lengthM: number; readonly crossings: readonly Crossing[] } | null;
  /** By so much the way from end to end may really be longer or shorter: the grades of the two ends combined, metres. */
  readonly doubtM: number;
  /** Where clips go. */
  readonly clips: readonly TakeoffClip[];
  /** Where the length of a supplied hose goes that its run does not need; null where that is not known. */
  readonly spare: Spare | null;
}

export interface TakeoffEnd {
  readonly thing: string;
  /** Name of the thing, with its tag. */
  readonly name: string;
  readonly isSeacock: boolean;
  /** Has states that a hand sets. */
  readonly isValve: boolean;
  /** Name of the compartment. */
  readonly place: string;
}

export interface TakeoffClip {
  readonly alongM: number;
  readonly place: string;
  /** The span before it is longer than the kind allows: nothing nearer could hold it. */
  readonly isFar: boolean;
}

export interface SuppliedLength {
  readonly id: string;
  readonly kind: string;
  readonly lengthM: number;
  readonly name?: string | undefined;
}

export interface Allowances {
  /** Hose that is cut and trimmed away at each end, metres. */
  readonly makingUpM: number;
  /** Reserve on lengths that are taken off a drawing, share. */
  readonly reserveShare: number;
  /** By which a hose with crimped ends may shorten under pressure, share. */
  readonly shorteningShare: number;
}

/** Common practice; shortening: SAE J1273 as quoted. */
export const USUAL_ALLOWANCES: Allowances = { makingUpM: 0.05, reserveShare: 0.1, shorteningShare: 0.04 };

/** What the boat file sets, and common practice for the rest. */
export const allowancesOf = (settings: Boat['takeoff']): Allowances => ({
  makingUpM: settings?.makingUpM ?? USUAL_ALLOWANCES.makingUpM,
  reserveShare: settings?.reserveShare ?? USUAL_ALLOWANCES.reserveShare,
  shorteningShare: settings?.shorteningShare ?? USUAL_ALLOWANCES.shorteningShare,
});
