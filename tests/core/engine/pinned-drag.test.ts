import { edit } from '@core/boat/edits';
import { runPinned } from '@core/boat/pins';
import { Session } from '@core/engine/session';
import { pinOf } from '@core/runs/pinned/pin';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../oracle/judged';
import { threeLockers } from '../../support/boats';

describe('a drag of a part on which a pinned run ends', () => {
  const boat = boatOf(threeLockers());
  const runs = new Session(boat).settled().runs.filter(({ status }) => status === 'routed');
  const run = runs.find(({ lineId }) => boat.lines[lineId]?.to.thing === 'strainer');
  if (!run) throw new Error('expected a routed line to the strainer');
  const made = edit(boat, runPinned('first', run.lineId, pinOf(run.prims)));
  if (!made.ok) throw new Error(made.problems[0]?.message ?? '');
  const session = new Session(made.boat);
  const before = session.settled();
  const place = made.boat.arrangements.first?.places.strainer;
  if (!place) throw new Error('expected a place of the strainer');
  const at = [place.at[0], place.at[1] + 0.03, place.at[2]] as const;

  it('leaves the run where it was built, and tells by how much its end is off', () => {
    session.whatIf({ seq: 1, places: { strainer: { ...place, at } } });
    const news = [];
    for (let delta = session.step(); delta; delta = session.step()) news.push(delta);
    const own = news.flatMap((delta) => delta.runs.filter(({ lineId }) => lineId === run.lineId));
    const pinned = before.runs.find(({ lineId }) => lineId === run.lineId);
    for (const shown of own) expect(shown.prims).toEqual(pinned?.prims);
    const finding = news
      .flatMap(({ findings }) => findings)
      .find(({ key }) => key === `runs/pinned|${run.lineId}|endOff to`);
    // derived: the strainer is held 30 mm aside; corners are kept to a micrometre
    expect(finding?.data.byM).toBeCloseTo(0.03, 5);
  });

  it('leaves nothing behind when it is taken back', () => {
    session.endWhatIf();
    expect(session.settled()).toEqual(before);
  });
});
