import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { analyze } from '@core/analyze';
import { applied } from '@core/boat/edits';
import { checkBoat, readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { findings } from '@core/engine/finding-stages';
import type { CompartmentAnswer } from '@core/engine/placement/place-report';
import { placesFor } from '@core/engine/placement/places';
import { testsThere } from '@core/engine/placement/whole-judgement';
import { report } from '@core/engine/report-stages';
import { type Source, sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import type { Finding } from '@core/rules/finding';
import { expect } from 'vitest';

function completeBoat(name: string): Boat {
  const file = fileURLToPath(new URL(`../../../../sample-boats/complete/${name}/boat.json`, import.meta.url));
  const read = readBoat(readFileSync(file, 'utf8'));
  if (!read.ok) throw new Error(read.problems[0]?.message);
  return read.boat;
}

/** A place that is proposed for a part of a boat, with what was promised of it. */
export interface Proposal {
  readonly boatName: string;
  readonly part: string;
  readonly answer: CompartmentAnswer;
}

/** A boat, judged once, of which many things are asked. */
export class AskedBoat {
  readonly boat: Boat;
  readonly before: readonly Finding[];
  private readonly store: Store<Source>;

  constructor(
    readonly name: string,
    boat: Boat = completeBoat(name),
  ) {
    this.boat = boat;
    this.store = new Store(sourceOf(this.boat));
    this.before = this.store.read(report).findings;
  }

  /** Every place that the answer for a part proposes: those with an edit. */
  proposals(part: string): readonly Proposal[] {
    return placesFor(this.boat, [part], { store: this.store.fork() })
      .compartments.filter(({ best }) => best !== null)
      .map((answer) => ({ boatName: this.name, part, answer }));
  }
}

const isGrave = (finding: Finding): boolean => finding.outcome === 'fail' && finding.severity !== 'advice';

/**
 * Applies a proposal, reads the boat that comes of it as a file is read, judges it from cold, and holds it against the promise: by the tests
 * themselves, worked out again, and by the findings of a plain check.
 */
export function expectKept({ part, answer }: Proposal, { boat, before }: AskedBoat): void {
  const { best, verdict, tests, compartment } = answer;
  if (!best) throw new Error(`${part} in ${compartment}: nothing is proposed`);
  const edited = checkBoat(applied(boat, best.patches));
  if (!edited.ok) throw new Error(`${part} in ${compartment}: ${edited.problems[0]?.message}`);
  const cold = new Store(sourceOf(edited.boat));
  const after = cold.read(findings);
  const again = testsThere(cold.read, [part], after, before);
  const where = `${part} in ${compartment}, promised ${verdict}`;
  const lines = Object.keys(boat.lines).filter((id) =>
    [boat.lines[id]?.from.thing, boat.lines[id]?.to.thing].includes(part),
  );
  const isOwn = ({ subject, related }: Finding): boolean =>
    [subject, ...related].some((id) => id === part || lines.includes(id));
  const checked = analyze(edited.boat).findings;
  if (verdict === 'no') {
    const failed = Object.values(again).some(({ outcome }) => outcome === 'fail');
    expect(failed || answer.breaks.length > 0, where).toBe(true);
    // a plain check finds something against the part or its lines, or the level of a flood speaks
    if (answer.breaks.length === 0 && answer.decides !== 'dry')
      expect(
        checked.some((one) => isGrave(one)),
        where,
      ).toBe(true);
    return;
  }
  // Judged whole: every test comes out again with every figure.
  expect(again, where).toEqual(tests);
  const known = new Set(before.filter(isGrave).map(({ key }) => key));
  expect(
    checked.filter((one) => isGrave(one) && !known.has(one.key)).map(({ key }) => key),
    where,
  ).toEqual([]);
  const isUnsure = checked.some((one) => one.outcome === 'cannotTell' && isOwn(one));
  if (verdict === 'goes') expect(isUnsure, where).toBe(false);
  const outcomes = Object.values(again).map(({ outcome }) => outcome);
  const expected = outcomes.includes('cannotTell') ? 'open' : outcomes.includes('close') ? 'goesClose' : 'goes';
  expect(verdict, where).toBe(expected);
}
