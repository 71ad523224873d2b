/**
 * What the model asks of every run whatever the hose: straight at its ends and in holes, by its clip points. The router keeps it, and the
 * certified bound may therefore count on it.
 */
import type { Panel } from '../../shape/layout/types';
import type { Lead } from './types';

/** Nothing bends before the hose is this far beyond its own radius from the port: it has to come clear of its own thing. */
const LEAD_BEYOND_RADIUS_M = 0.006;

/** Straight from the port, metres: the rigid end and straight length asked by the port, or until the hose is clear of its thing. */
export const leadStraightM = (lead: Pick<Lead, 'rigidM'>, radiusM: number): number =>
  Math.max(lead.rigidM, radiusM + LEAD_BEYOND_RADIUS_M);

/**
 * Straight and square to the panel on each side of a hole's middle, metres: half the thickness and the hose's own radius beyond
 * the surface, so that no bend leans on the rim; at least through the space that the two compartments leave between them.
 */
export const holeStraightM = (panel: Pick<Panel, 'thicknessM' | 'gapM'>, radiusM: number): number =>
  Math.max(panel.thicknessM / 2 + radiusM, panel.gapM / 2);

/** A run passes each clip point at least as near as this, metres; farther only beside others that hang in the same clip. */
export const CLIP_WITHIN_M = 0.005;
