import { analyze } from '@core/analyze';
import { type BoatRecipe, edit, placed } from '@core/boat/edits';
import { runPinned, runUnpinned } from '@core/boat/pins';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { Session } from '@core/engine/session';
import { pinOf } from '@core/runs/pinned/pin';
import { threeLockers } from '../../support/boats';
import { randomFrom } from '../../support/random';

export function edited(session: Session, recipe: BoatRecipe): void {
  const result = edit(session.boat, (boat) => void recipe(boat));
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  session.edit(result.patches);
}

/** All deeper work, so many steps at a time; the number of slices. */
export function deepenAll(session: Session, steps: number): number {
  for (let slices = 1; ; slices++) if (session.deepen(steps).done) return slices;
}

function lockers(): Boat {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error(read.problems[0]?.message ?? '');
  return read.boat;
}

/** One act of a hand at the board, drawn by chance. */
function act(session: Session, random: () => number, seq: number): void {
  const at = [0.3 + 2.4 * random(), -0.3 + 0.6 * random(), -0.2 + 0.3 * random()] as const;
  const part = random() < 0.5 ? 'strainer' : 'pump';
  const dice = random();
  if (dice < 0.2) {
    session.whatIf({ seq, places: { [part]: { at, yawDeg: 0, pitchDeg: 0, rollDeg: 0 } } });
    for (let step = 0; step < 4; step++) session.step(150);
    if (random() < 0.5) session.endWhatIf();
  } else if (dice < 0.4) session.deepen(200);
  else if (dice < 0.6) edited(session, placed('first', part, { at }));
  else if (dice < 0.85) {
    const runs = session.settled().runs.filter(({ status, pinned }) => status === 'routed' && !pinned);
    const run = runs[Math.floor(random() * runs.length)];
    if (run) edited(session, runPinned('first', run.lineId, pinOf(run.prims)));
  } else for (const lineId of Object.keys(session.boat.lines)) edited(session, runUnpinned('first', lineId));
}

/** What a session tells at rest after a sequence of acts, and what a cold start tells of its boat: deeper, and not. */
export function afterActs(seed: number, acts: number): readonly (readonly [told: Report, cold: Report])[] {
  const random = randomFrom(seed);
  const session = new Session(lockers());
  for (let k = 0; k < acts; k++) act(session, random, k);
  deepenAll(session, 300);
  const { boat } = session;
  const deeper = session.settled();
  session.open({ ...boat });
  return [
    [deeper, analyze(boat, { deeper: true })],
    [session.settled(), analyze(boat)],
  ];
}
