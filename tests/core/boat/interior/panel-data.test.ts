import { compartmentsMerged } from '@core/boat/interior/merging';
import {
  newHoleBound,
  panelChanged,
  panelDataBound,
  panelDataRemoved,
  panelHoleAdded,
} from '@core/boat/interior/panel-data';
import { describe, expect, it } from 'vitest';
import { heldThroughEdits, layoutOf, twoRows } from './panel-edits';
import { box, done, drawnBoat } from './shapes';

describe('the data of panels', () => {
  it('are bound or listed after any sequence of edits, with rule, thickness, material and holes', () => {
    const { edits, orphans } = heldThroughEdits(1, 40);
    expect(edits).toBeGreaterThan(260);
    expect(orphans).toBeGreaterThan(26);
  });

  it('are bound anew by hand: to a panel without data, and into that of another', () => {
    const merged = done(twoRows(), compartmentsMerged('p0', 'p1'));
    expect(layoutOf(merged).orphans).toEqual(
      [
        { dataId: 'drilled', what: 'newHole', reason: 'noSuchPair' },
        { dataId: 'port1', what: 'panel', reason: 'setAside' },
      ].sort((a, b) => (a.what < b.what ? 1 : -1)),
    );
    const place = { between: ['p0', 'p2'] as const, near: [2, 0.4, 0.3] as const, dataId: 'port2' };
    const into = done(merged, panelDataBound('port1', place));
    expect(into.panels.port1).toBeUndefined();
    expect(Object.keys(into.panels.port2?.holes ?? {}).sort()).toEqual(['hole0.021', 'hole0.022']);
    // derived: the record moves from (1, 0.4, 0.3) to (2, 0.4, 0.3), and its hole with it
    expect(into.panels.port2?.holes['hole0.021']?.at).toEqual([2, 0.4, 0.3]);
    const free = done(
      done(merged, panelDataRemoved('port2')),
      panelDataBound('port1', { between: place.between, near: place.near }),
    );
    expect(free.panels.port1).toMatchObject({ between: ['p0', 'p2'], thicknessM: 0.021 });
    expect(free.panels.port1?.setAside).toBeUndefined();
    const drilled = done(free, newHoleBound('one', 'drilled', place));
    expect(layoutOf(drilled).orphans).toEqual([]);
  });

  it('come with the first change of a panel that had none', () => {
    const boat = drawnBoat({
      compartments: { a: box('A', [0, 1], [0, 1], [0, 1]), b: box('B', [1, 2], [0, 1], [0, 1]) },
    });
    const place = { between: ['a', 'b'] as const, near: [1, 0.5, 0.5] as const };
    const changed = done(
      boat,
      panelChanged(place, (own) => Object.assign(own, { material: 'grpSolid' })),
    );
    expect(changed.panels['a-b']).toMatchObject({ rule: 'drill', material: 'grpSolid' });
    const holed = done(changed, panelHoleAdded({ ...place, dataId: 'a-b' }, [1, 0.2, 0.2], 0.04));
    expect(holed.panels['a-b']?.holes.hole).toMatchObject({ at: [1, 0.2, 0.2], diameterM: 0.04 });
  });
});
