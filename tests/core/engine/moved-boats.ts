import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import { currentArrangementId, edit, placed } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import type { Report } from '@core/engine/report';
import { Session } from '@core/engine/session';
import { expect } from 'vitest';
import { randomFrom } from '../../support/random';

const FOLDER = 'sample-boats/complete';

/** Names of the complete sample boats. */
export const completeBoats = (): readonly string[] =>
  readdirSync(FOLDER)
    .filter((name) => existsSync(`${FOLDER}/${name}/boat.json`))
    .sort();

export function boatFrom(text: string): Boat {
  const result = readBoat(text);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
}

/** The answer at rest, once close bounds and deeper tries are in. */
export function atRest(session: Session, settled: Report): Report {
  let report = settled;
  for (;;) {
    const slice = session.deepen();
    report = slice.report ?? report;
    if (slice.done) return report;
  }
}

/**
 * Drags random parts of a sample boat, lets go, and holds the settled answer against a cold analysis of the saved file.
 * Every other drag is put down half way through its searches.
 */
export function expectMovesToSettle(
  name: string,
  moves: number,
  seed: number,
  judge: (settled: Report, boat: Boat, what: string, session: Session) => void = (settled, boat, what) =>
    expect(settled, what).toEqual(analyze(boatFrom(writeBoat(boat)))),
): void {
  const boat = boatFrom(readFileSync(`${FOLDER}/${name}/boat.json`, 'utf8'));
  const arrangement = currentArrangementId(boat);
  if (arrangement === null) throw new Error(`${name}: no arrangement`);
  const random = randomFrom(seed);
  const session = new Session(boat);
  const ids = Object.keys(boat.arrangements[arrangement]?.places ?? {}).sort();
  for (let move = 0; move < moves; move++) {
    const id = ids[Math.floor(random() * ids.length)] ?? '';
    const place = session.boat.arrangements[arrangement]?.places[id];
    if (!place) throw new Error(`${name}: ${id} has no place`);
    const heading = 2 * Math.PI * random();
    const far = 0.01 + 0.08 * random();
    const turn = random() < 0.25 ? 90 : 0;
    const at = (share: number): [number, number, number] => [
      place.at[0] + share * far * Math.cos(heading),
      place.at[1] + share * far * Math.sin(heading),
      place.at[2],
    ];
    for (let step = 1; step <= 3; step++) {
      session.whatIf({ seq: 10 * move + step, places: { [id]: { ...place, at: at(step / 3) } } });
      for (let slice = 0; slice < (move % 2 === 0 ? 2 : 40) && session.step(); slice++);
    }
    const result = edit(session.boat, placed(arrangement, id, { at: at(1), yawDeg: (place.yawDeg + turn) % 360 }));
    if (!result.ok) throw new Error(result.problems[0]?.message);
    session.edit(result.patches);
    const settled = session.settled();
    judge(settled, session.boat, `${name}, move ${move} of ${id}`, session);
  }
}
