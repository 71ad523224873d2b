import type { Vec2, Vec3 } from '@core/base/vec';
import type { BoatRecipe } from '@core/boat/edits';
import type { OnFace } from '@core/boat/interior/ways';
import type { Compartment } from '@core/boat/schema/boat';
import type { ViewName } from '@core/output/views/drawing';
import { create } from 'zustand';
import type { Draft } from '../tools/drawing';
import type { Shaping } from '../tools/gesture';
import type { Measure } from '../tools/measuring';
import type { SnapOn } from '../tools/point-snap';
import type { FieldView } from './types';

export type Range = readonly [number, number];

/** A face, corner, opening or hole that the pointer holds, as the boat would be on release. */
export interface HeldShape {
  readonly what: Shaping;
  readonly view: FieldView;
  readonly label: string;
  readonly recipe: BoatRecipe;
  /** Compartments as they would be. */
  readonly shapes: Readonly<Record<string, Compartment>>;
  /** Where a sliding thing would be. */
  readonly at: Vec3 | null;
  readonly on: readonly SnapOn[];
}

/** An opening or surface that is being marked out on a face. */
export interface Marking {
  readonly what: 'opening' | 'surface';
  readonly view: FieldView;
  readonly compartment: string;
  readonly key: string;
  readonly from: Vec3;
  readonly marked: OnFace;
}

/**
 * What is being drawn, held or measured, and what the drawing tools go by; apart from the boat until it is done.
 * `typed` is the range that the user entered for the next compartment of a view; without it one is proposed.
 */
export interface DrawingState {
  readonly draft: Draft | null;
  /** What the pointer, or the last set point, lies on. */
  readonly on: readonly SnapOn[];
  readonly typed: Readonly<Partial<Record<ViewName, Range>>>;
  readonly last: Readonly<Partial<Record<ViewName, Range>>>;
  /** Range that a compartment drawn now would get, and why. */
  readonly proposed: { readonly view: ViewName; readonly rangeM: Range; readonly from: string } | null;
  readonly held: HeldShape | null;
  /** Face or corner of the selected compartment that the arrow keys move. */
  readonly grip: Shaping | null;
  readonly marking: Marking | null;
  /** Face that a press with the opening or surface tool would take. */
  readonly aim: { readonly compartment: string; readonly key: string } | null;
  /** Stay on the drawing until they are cleared. */
  readonly measures: readonly Measure[];
  /** A box that is drawn round things to pick them, in pixels of the board. */
  readonly box: { readonly from: Vec2; readonly to: Vec2 } | null;
}

export const NOTHING_DRAWN = { draft: null, on: [], held: null, marking: null, aim: null } as const;

export const useDrawing = create<DrawingState>()(() => ({
  ...NOTHING_DRAWN,
  typed: {},
  last: {},
  proposed: null,
  grip: null,
  measures: [],
  box: null,
}));
