import { readFileSync } from 'node:fs';
import { LINE_KINDS, lineKindOf } from '@core/boat/catalogue/line-kinds';
import { joinOf, type PortAt } from '@core/boat/joins';
import { readBoat } from '@core/boat/read';
import type { Boat, Medium } from '@core/boat/schema/boat';
import { joinRefusalText } from '@core/output/text/join-text';
import { describe, expect, it } from 'vitest';

const read = readBoat(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8'));
if (!read.ok) throw new Error('expected the sample to be read');
const SAMPLE: Boat = read.boat;
const without = (line: string): Boat => {
  const { [line]: _gone, ...lines } = SAMPLE.lines;
  return { ...SAMPLE, lines };
};
const arrangement = Object.keys(SAMPLE.arrangements).sort()[0] ?? '';

/** A boat of two things with one port each, from the schema's defaults. */
function pair(
  a: Record<string, unknown>,
  b: Record<string, unknown>,
  more: readonly [object, object] = [{}, {}],
): Boat {
  const thing = (x: number, port: Record<string, unknown>, data: object) => ({
    name: 'Box',
    kind: 'other',
    shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
    pose: { at: [x, 0, 0] },
    ports: { p: { at: [0, 0, 0], direction: [1, 0, 0], ...port } },
    ...data,
  });
  const made = readBoat(
    JSON.stringify({
      format: SAMPLE.format,
      schemaVersion: SAMPLE.schemaVersion,
      name: 'Two',
      fixtures: { a: thing(0, a, more[0]), b: thing(2, b, more[1]) },
    }),
  );
  if (!made.ok) throw new Error(made.problems.map(({ message }) => message).join('; '));
  return made.boat;
}
const joined = (boat: Boat, a = 'a', b = 'b') => joinOf(boat, null, { thing: a, port: 'p' }, { thing: b, port: 'p' });

describe('joining two ports', () => {
  it('allows every line of the complete sample, begun at either end, and finds its way and its content', () => {
    for (const [id, line] of Object.entries(SAMPLE.lines)) {
      for (const [a, b] of [
        [line.from, line.to],
        [line.to, line.from],
      ] as const) {
        const answer = joinOf(without(id), arrangement, a, b);
        expect(answer, id).toMatchObject({ ok: true });
        if (!answer.ok) continue;
        const isKnown = (end: PortAt): boolean => {
          const port = (SAMPLE.parts[end.thing] ?? SAMPLE.fixtures[end.thing])?.ports[end.port];
          return port?.role !== 'both';
        };
        if (isKnown(line.from) || isKnown(line.to)) expect(answer.join.from.thing, id).toBe(line.from.thing);
        expect(answer.join.medium, id).toBe(line.medium);
      }
    }
  });

  it('proposes for the lines of the sample what its owner chose, cables apart, which go by their current', () => {
    const hoses = Object.entries(SAMPLE.lines).filter(([, { medium }]) => medium !== 'dcPower');
    const proposed = hoses.map(([id, line]) => {
      const answer = joinOf(without(id), arrangement, line.from, line.to);
      return answer.ok ? answer.join.kind : null;
    });
    expect(hoses.length).toBeGreaterThan(15);
    expect(proposed).toEqual(hoses.map(([, { kind }]) => kind));
  });

  it.each<[Medium, Medium, boolean]>([
    ['seaWater', 'brine', true],
    ['product', 'freshWater', true],
    ['seaWater', 'freshWater', false],
    ['dcPower', 'seaWater', false],
    ['fuel', 'freshWater', false],
    ['waste', 'product', false],
  ])('%s to %s: %s', (a, b, isAllowed) => {
    const answer = joined(pair({ medium: a }, { medium: b }));
    expect(answer.ok).toBe(isAllowed);
    if (!answer.ok) expect(answer.refusal).toEqual({ why: 'media', from: a, to: b });
  });

  it('turns a line round so that it flows from what gives to what takes', () => {
    const boat = pair({ medium: 'seaWater', role: 'in' }, { medium: 'seaWater', role: 'out' });
    const answer = joined(boat);
    expect(answer.ok && answer.join.from.thing).toBe('b');
    expect(joined(pair({ role: 'in' }, { role: 'in' }))).toMatchObject({ refusal: { why: 'bothTake' } });
    expect(joined(pair({ role: 'out' }, { role: 'out' }))).toMatchObject({ refusal: { why: 'bothGive' } });
  });

  it('refuses a port to itself, to its own thing, and one that has a hose on it, and names that hose', () => {
    const { from, to } = SAMPLE.lines.r1 ?? { from: { thing: '', port: '' }, to: { thing: '', port: '' } };
    expect(joinOf(SAMPLE, arrangement, from, from)).toMatchObject({ refusal: { why: 'samePort' } });
    expect(joinOf(SAMPLE, arrangement, to, { thing: to.thing, port: 'outlet' })).toMatchObject({
      refusal: { why: 'sameThing' },
    });
    const taken = joinOf(SAMPLE, arrangement, from, to);
    expect(taken).toMatchObject({ refusal: { why: 'taken', line: 'r1' } });
    if (!taken.ok) expect(joinRefusalText(SAMPLE, taken.refusal)).toContain(SAMPLE.lines.r1?.name ?? '?');
    expect(joinOf(SAMPLE, arrangement, from, to, 'r1').ok).toBe(true);
  });

  it('chooses the bore nearest to the port', () => {
    const kind = (boreM: number, medium: Medium): string => {
      const answer = joined(pair({ medium, boreM }, { medium }));
      return answer.ok ? answer.join.kind : '';
    };
    expect(kind(0.0251, 'seaWater')).toBe('hose-suction-25');
    expect(kind(0.012, 'seaWater')).toBe('hose-suction-13');
    expect(kind(0.02, 'waste')).toBe('hose-drain-25');
    expect(kind(0.019, 'brine')).toBe('hose-brine-19');
  });

  it('gives a membrane hose that stands its pressure, more where a data sheet asks for more', () => {
    const membrane = { kind: 'membrane' };
    const hose = (workingBar?: number): number => {
      const pump = { kind: 'pumpModule', ...(workingBar === undefined ? {} : { workingBar }) };
      const boat = pair({ medium: 'seaWater', role: 'out', boreM: 0.01 }, { medium: 'seaWater', role: 'in' }, [
        pump,
        membrane,
      ]);
      const answer = joined(boat);
      return (answer.ok && lineKindOf(boat.lineKinds, answer.join.kind)?.pressureBar) || 0;
    };
    expect(hose()).toBeGreaterThanOrEqual(60);
    expect(hose(200)).toBeGreaterThanOrEqual(200);
  });

  it('chooses a cable by what it carries and by what may be lost', () => {
    const area = (drawA: number, metres: number): number => {
      const load = { electric: { drawA }, pose: { at: [metres, 0, 0] } };
      const boat = pair({ medium: 'dcPower' }, { medium: 'dcPower' }, [{ electric: { sourceV: 12 } }, load]);
      const answer = joined(boat);
      return (answer.ok && LINE_KINDS[answer.join.kind]?.areaMm2) || 0;
    };
    // 33 CFR 183.425 Table 5, 105 C: gauge 14 (2.08 mm2) carries 35 A, gauge 8 (8.37 mm2) 80 A, gauge 6 (13.3 mm2) 120 A.
    expect(area(30, 0)).toBe(2.5);
    expect(area(70, 0)).toBe(10);
    expect(area(100, 0)).toBe(16);
    // ABYC E-11 as quoted, CM = 10.75 I L / E: 30 A over 2 x 1.5 x 4 m with 1.2 V to lose is 5.4 mm2.
    expect(area(30, 4)).toBe(6);
  });
});
