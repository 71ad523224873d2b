import { readBoat } from '@core/boat/read';
import type { RunReport } from '@core/engine/report';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { useDrag } from '@renderer/store/drag';
import { placeOf } from '@renderer/store/select';
import { beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const sent: string[] = [];
const run = (lineId: string, lengthM: number): RunReport => ({
  lineId,
  status: 'routed',
  lengthM,
  lowerBoundM: 0,
  prims: [],
  holes: [],
  minClearanceM: 1,
});

beforeEach(() => {
  sent.length = 0;
  connectEngine({
    open: () => sent.push('open'),
    edit: () => sent.push('edit'),
    whatIf: (seq) => sent.push(`whatIf ${seq}`),
    endWhatIf: () => sent.push('endWhatIf'),
  });
  connectJournal(null);
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error('expected a boat');
  useApp.getState().open(read.boat, { fileName: '', token: null, saved: true });
  useDrag.setState({ thingId: null, runs: {}, findings: {} });
});

const drag = () => useDrag.getState();
const moved = (x: number) => ({ at: [x, 0, -0.325] as [number, number, number], yawDeg: 0, pitchDeg: 0, rollDeg: 0 });

describe('a drag', () => {
  it('is a what-if at every step and one edit at the end', () => {
    const first = drag().sent + 1;
    drag().startDrag('intake');
    drag().updateDrag(moved(0.4));
    drag().updateDrag(moved(0.5));
    const before = useApp.getState().boat;
    expect(before && placeOf(before, null, 'intake')?.at[0]).toBe(0.3);
    drag().endDrag('commit');
    expect(sent).toEqual(['open', `whatIf ${first}`, `whatIf ${first + 1}`, 'endWhatIf', 'edit']);
    const after = useApp.getState().boat;
    expect(after && placeOf(after, null, 'intake')?.at[0]).toBe(0.5);
    useApp.getState().undo();
    const back = useApp.getState().boat;
    expect(back && placeOf(back, null, 'intake')?.at[0]).toBe(0.3);
  });

  it('cancelled leaves nothing behind', () => {
    drag().startDrag('intake');
    drag().updateDrag(moved(0.4));
    drag().answeredStep(drag().sent, { runs: [run('a', 1)], findings: [], gone: [] });
    drag().endDrag('cancel');
    expect(sent.at(-1)).toBe('endWhatIf');
    expect(drag().runs).toEqual({});
    expect(useApp.getState().canUndo).toBeNull();
  });

  it('adds up what it is told: a run told once stays until told anew', () => {
    drag().startDrag('intake');
    drag().updateDrag(moved(0.4));
    drag().answeredStep(drag().sent, { runs: [run('a', 1), run('b', 2)], findings: [], gone: ['rule|x|'] });
    drag().updateDrag(moved(0.5));
    drag().answeredStep(drag().sent, { runs: [run('a', 3)], findings: [], gone: [] });
    expect(drag().runs.a?.lengthM).toBe(3);
    expect(drag().runs.b?.lengthM).toBe(2);
    expect(drag().findings).toEqual({ 'rule|x|': null });
  });

  it('takes no answer that belongs to the drag before', () => {
    drag().startDrag('intake');
    drag().updateDrag(moved(0.4));
    const old = drag().sent;
    drag().endDrag('cancel');
    drag().startDrag('intake');
    drag().updateDrag(moved(0.6));
    drag().answeredStep(old, { runs: [run('a', 9)], findings: [], gone: [] });
    expect(drag().runs).toEqual({});
  });

  it('keeps the runs that it drew until the settled answer comes', () => {
    drag().startDrag('intake');
    drag().updateDrag(moved(0.4));
    drag().answeredStep(drag().sent, { runs: [run('a', 1)], findings: [], gone: [] });
    drag().endDrag('commit');
    expect(drag().runs.a?.lengthM).toBe(1);
    expect(useApp.getState().stale).toBe(true);
  });

  it('starts on nothing that is not placed', () => {
    drag().startDrag('nobody');
    expect(drag().thingId).toBeNull();
  });
});
