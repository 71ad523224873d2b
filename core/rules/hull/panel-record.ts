import { dot, subtract, type Vec3 } from '../../base/vec';
import { BIND_WITHIN_M } from '../../shape/layout/bind';
import type { Panel } from '../../shape/layout/types';
import { defineRule, type Verdict } from '../define';
import { judge } from '../judge';

/** A rule or a hole that hangs on no panel protects nothing: it must not vanish when the outlines move. */
export const panelRecord = defineRule({
  id: 'hull/panel-record',
  question: 'Does every panel record still find its panel?',
  sources: [{ key: 'boat-file', standing: 'boatFile' }],
  cannotSee: ['Whether the panel that it found is the one that was meant.'],
  hazards: [],
  subjects: (facts) => {
    const { panels, orphans } = facts.layout();
    const bound = Object.values(panels).flatMap((panel) => (panel.dataId === undefined ? [] : [panel.dataId]));
    return [...new Set([...bound, ...orphans.map((orphan) => orphan.dataId)])].sort();
  },
  check(id, facts): readonly Verdict[] {
    const { panels, orphans } = facts.layout();
    const lost = orphans.filter((one) => one.dataId === id);
    if (lost.length > 0) {
      return lost.map(({ what, reason }): Verdict => {
        const wish =
          what === 'panel'
            ? 'Say anew which two compartments it parts, and where'
            : 'Say anew which panel is to be drilled, and where';
        return {
          outcome: 'cannotTell',
          reason,
          instance: what,
          enterNext: `${wish}: ${id}`,
          data: { record: id, what },
          isPlanned: what === 'newHole',
        };
      });
    }
    const panel = Object.values(panels).find((one) => one.dataId === id);
    if (!panel) return [{ outcome: 'notApplicable', reason: 'noPanel' }];
    const { met: _met, ...apart } = judge({
      value: apartFromTwin(panel, Object.values(panels)),
      limit: ONE_PLANE_M,
      bound: 'atLeast',
      unit: 'm',
      grade: panel.between.map((id) => facts.gradeOf(id)),
    });
    return [
      {
        outcome: 'pass',
        measured: { value: panel.dataDistanceM ?? 0, unit: 'm' },
        limit: { value: BIND_WITHIN_M, unit: 'm', bound: 'atMost' },
        ...(apart.closeCall ? { closeCall: apart.closeCall, gradeFrom: apart.gradeFrom ?? [] } : {}),
        related: [panel.id],
      },
    ];
  },
});

/** Parallel panels of one pair of compartments that lie nearer than this are drawn as one, and one of their records is left over. */
const ONE_PLANE_M = 0.001;

/** How far the next parallel panel between the same two compartments lies before or behind this one, metres. */
function apartFromTwin(panel: Panel, all: readonly Panel[]): number {
  const corner = (one: Panel): Vec3 => one.pieces[0]?.[0] ?? [0, 0, 0];
  const twins = all.filter(
    (one) =>
      one.id !== panel.id &&
      one.between[0] === panel.between[0] &&
      one.between[1] === panel.between[1] &&
      Math.abs(dot(one.normal, panel.normal)) > 0.999,
  );
  return Math.min(
    Number.MAX_VALUE,
    ...twins.map((one) => Math.abs(dot(subtract(corner(one), corner(panel)), panel.normal))),
  );
}
