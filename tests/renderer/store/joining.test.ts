import { readBoat } from '@core/boat/read';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { beginJoin, beginMoveEnd, dropJoin, finishJoin, joinOver, useJoining } from '@renderer/store/joining';
import { beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

beforeEach(() => {
  connectEngine(null);
  connectJournal(null);
  const { lines: _lines, ...bare } = threeLockers();
  const read = readBoat(JSON.stringify(bare));
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  useApp.getState().open(read.boat, { fileName: '', token: null, saved: true });
  dropJoin();
});

const state = () => useApp.getState();
const lines = () => Object.entries(state().boat?.lines ?? {});
const port = (thing: string, name: string) => ({ thing, port: name });

/** A port that a line may lead to from the intake. */
const taker = () => {
  const strainer = state().boat?.parts.strainer;
  const name = Object.entries(strainer?.ports ?? {}).find(([, { role }]) => role === 'in')?.[0];
  if (name === undefined) throw new Error('expected a port that takes water');
  return port('strainer', name);
};

describe('leading a line from port to port', () => {
  it('makes one line, picks it, and is one undo step', () => {
    beginJoin(port('intake', 'out'));
    joinOver(taker());
    expect(finishJoin()).toBe(true);
    expect(lines()).toHaveLength(1);
    const [id, line] = lines()[0] ?? ['', null];
    expect(line).toMatchObject({ from: port('intake', 'out'), to: taker(), medium: 'seaWater' });
    expect(state().selection).toEqual({ kind: 'line', id });
    expect(useJoining.getState().from).toBeNull();
    state().undo();
    expect(lines()).toHaveLength(0);
  });

  it('takes the kind that was chosen instead of the proposed one', () => {
    beginJoin(port('intake', 'out'));
    joinOver(taker());
    useJoining.setState({ kind: 'hose-suction-38' });
    finishJoin();
    expect(lines()[0]?.[1].kind).toBe('hose-suction-38');
  });

  it('says why two ports cannot be joined, makes nothing, and keeps the first port in hand', () => {
    beginJoin(port('intake', 'out'));
    joinOver(port('battery', 'posts'));
    expect(finishJoin()).toBe(false);
    expect(lines()).toHaveLength(0);
    expect(state().problem?.lines.join(' ')).toContain('DC');
    expect(useJoining.getState()).toMatchObject({ from: port('intake', 'out'), over: null });
  });

  it('leads the end of a line to another port, and keeps what else it is', () => {
    beginJoin(port('intake', 'out'));
    joinOver(taker());
    finishJoin();
    const [id, before] = lines()[0] ?? ['', undefined];
    state().edit('A second strainer', (draft) => {
      const first = draft.parts.strainer;
      if (first) draft.parts.second = JSON.parse(JSON.stringify(first)) as typeof first;
    });
    beginMoveEnd(id, 'to');
    expect(useJoining.getState().from).toEqual(before?.from);
    joinOver({ ...taker(), thing: 'second' });
    expect(finishJoin()).toBe(true);
    expect(state().boat?.lines[id]).toEqual({ ...before, to: { ...taker(), thing: 'second' } });
    // Back onto the port that it has: nothing is in the way of it but itself.
    beginMoveEnd(id, 'to');
    joinOver({ ...taker(), thing: 'second' });
    expect(finishJoin()).toBe(true);
  });
});
