import { mends } from '@core/engine/remedies/mending';
import { remedyText } from '@core/output/text/remedy-text';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../boat/boat-of';
import { bent } from '../judged';

/**
 * What the rules about flooding propose is offered only after the engine has tried it: the failure is gone, nothing else is worse. No figures:
 * which of them help follows from the drawn boats, by hand.
 */
function offered(rule: string, key: string, changes: Readonly<Record<string, unknown>> = {}): readonly string[] {
  const boat = boatOf(bent(rule, changes));
  return mends(boat, `${rule}|${key}`).map((remedy) => remedyText(remedy, boat).title);
}

describe('what mends a flood', () => {
  it('a seal round what passes the hole that lets the water on', () => {
    expect(offered('flooding/joint-lets-go', 'seacock|')).toEqual([
      'Add a seal round what passes at panel between Dry locker and Well',
    ]);
  });

  it('no seal where the water has a second way', () => {
    const limber = { between: ['well', 'locker'], at: [1.005, 0.5, -0.45], diameterM: 0.025 };
    expect(offered('flooding/joint-lets-go', 'seacock|', { 'flooding.limberHoles': { limber } })).toEqual([]);
  });

  it('a seacock where nothing stops the sea, and on an outlet that goes under', () => {
    const bare = {
      'fixtures.seacock.valve': undefined,
      'fixtures.seacock.kind': 'skinFitting',
      'fixtures.seacock.name': 'Through-hull',
      'fixtures.receiver': undefined,
    };
    expect(offered('flooding/joint-lets-go', 'seacock|', bare)).toContainEqual(
      expect.stringMatching(/^Add a seacock .*at Through-hull$/),
    );
    expect(offered('flooding/outlet-immersed', 'outlet|')).toContainEqual(
      expect.stringMatching(/^Add a seacock .*at Brine outlet$/),
    );
  });

  it('one vented loop, where the hose finds its way over it', () => {
    const roomy = {
      'compartments.heads.outline': [
        [-0.5, -0.5],
        [2.5, -0.5],
        [2.5, 1.5],
        [-0.5, 1.5],
      ],
      'compartments.heads.rangeM': [-0.6, 1.2],
      'lines.waste.kind': 'hose-suction-19',
      'fixtures.head.ports.out': { at: [0, -0.2, -0.1], direction: [0, -1, 0], medium: 'waste', role: 'out' },
    };
    expect(offered('flooding/siphon', 'waste|seacock', roomy)).toEqual(['Add a vented loop at Toilet waste hose']);
  });

  it('a cover over electrics, and a tray under a bowl', () => {
    const cover = 'Add a cover that sheds drips at Receiver';
    expect(offered('flooding/drip-on-electrics', 'filter|')).toEqual([cover]);
    expect(offered('flooding/green-water', 'hatch|')).toEqual([cover]);
    expect(offered('flooding/bowl-spill', 'filter|bowl')).toEqual([
      'Add a tray that is held under it for the task at Coarse filter',
    ]);
  });
});
