import { BIND_WITHIN_M } from '../../shape/layout/bind';
import { defineRule, type Verdict } from '../define';

/** A rule or a hole that hangs on no panel protects nothing: it must not vanish when the outlines move. */
export const panelRecord = defineRule({
  id: 'hull/panel-record',
  question: 'Does every panel record still find its panel?',
  sources: [{ key: 'boat-file', standing: 'boatFile' }],
  cannotSee: ['Whether the panel that it found is the one that was meant.'],
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
        };
      });
    }
    const panel = Object.values(panels).find((one) => one.dataId === id);
    if (!panel) return [{ outcome: 'notApplicable', reason: 'noPanel' }];
    return [
      {
        outcome: 'pass',
        measured: { value: panel.dataDistanceM ?? 0, unit: 'm' },
        limit: { value: BIND_WITHIN_M, unit: 'm', bound: 'atMost' },
        related: [panel.id],
      },
    ];
  },
});
