import type { Vec2 } from '@core/base/vec';
import type { Boat, Hull } from '@core/boat/schema/boat';
import { stationsInOrder } from '@core/boat/station-edits';
import { create } from 'zustand';

/** What the board area shows at stage Hull. */
export type HullBoard = 'sections' | 'drawing';

/** A station as the hand holds it: nothing of it is an edit yet. */
export interface HeldStation {
  readonly id: string;
  readonly index: number;
  readonly points: readonly Vec2[];
}

/** A way to bring a hull in, or nothing. */
export type HullDialog = 'form' | 'offsets' | 'inside' | 'trace' | null;

interface SectionsState {
  readonly board: HullBoard;
  /** The station that is edited; null: the one amidships. */
  readonly stationId: string | null;
  /** The point that is picked on it. */
  readonly point: number | null;
  readonly held: HeldStation | null;
  readonly comb: boolean;
  /** Length of a tooth, metres, for a curvature of one per metre. */
  readonly combScaleM: number;
  readonly lines: boolean;
  readonly waterlinesM: number;
  readonly buttocksM: number;
  /** Why the last wish was not followed, at the place. */
  readonly refusal: string | null;
  readonly dialog: HullDialog;
}

export const useSections = create<SectionsState>()(() => ({
  board: 'sections',
  stationId: null,
  point: null,
  held: null,
  comb: true,
  combScaleM: 0.1,
  lines: true,
  waterlinesM: 0.3,
  buttocksM: 0.3,
  refusal: null,
  dialog: null,
}));

export const setSections = (change: Partial<SectionsState>): void => useSections.setState(change);

/** The station that is edited: the chosen one while it is there, else the one nearest amidships. */
export function activeStationId(boat: Boat, chosen: string | null): string | null {
  const { hull } = boat;
  if (!hull) return null;
  if (chosen !== null && Object.hasOwn(hull.stations, chosen)) return chosen;
  const order = stationsInOrder(hull);
  return order[Math.floor(order.length / 2)]?.[0] ?? null;
}

/** Points of a station as they are to be shown: as held while it is held. */
export const shownPoints = (hull: Hull, id: string, held: HeldStation | null): readonly Vec2[] =>
  held?.id === id ? held.points : (hull.stations[id]?.points ?? []);
