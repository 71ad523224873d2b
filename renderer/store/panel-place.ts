import type { PanelPlace } from '@core/boat/interior/panel-data';
import type { Boat } from '@core/boat/schema/boat';
import type { Panel } from '@core/shape/layout/types';
import { compartmentName } from './select';

export const panelWords = (boat: Boat, panel: Panel): string =>
  (panel.dataId === undefined ? undefined : boat.panels[panel.dataId]?.name) ??
  `${compartmentName(boat, panel.between[0])} to ${compartmentName(boat, panel.between[1])}`;

/** The middle of the largest piece's corners: surely nearer to this panel than to another of the same pair. */
export function nearOf(panel: Pick<Panel, 'pieces'>): [number, number, number] {
  const corners = panel.pieces.reduce((largest, piece) => (piece.length > largest.length ? piece : largest), []);
  const sum: [number, number, number] = [0, 0, 0];
  for (const corner of corners) {
    sum[0] += corner[0];
    sum[1] += corner[1];
    sum[2] += corner[2];
  }
  const count = Math.max(1, corners.length);
  return [sum[0] / count, sum[1] / count, sum[2] / count];
}

/** A derived panel as its record is found by. */
export const placeOfPanel = (panel: Panel): PanelPlace => ({
  between: panel.between,
  near: nearOf(panel),
  dataId: panel.dataId,
});
