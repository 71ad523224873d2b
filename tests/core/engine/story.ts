import { analyze } from '@core/analyze';
import { type BoatRecipe, edit, type Patch, placed, thingDeleted, unplaced } from '@core/boat/edits';
import { panelChanged } from '@core/boat/interior/panel-data';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { Session } from '@core/engine/session';
import { expect } from 'vitest';
import { threeLockers } from '../../support/boats';
import { randomFrom } from '../../support/random';

const PARTS = ['strainer', 'pump'] as const;

function readLockers(): Boat {
  const result = readBoat(JSON.stringify(threeLockers()));
  if (!result.ok) throw new Error(result.problems[0]?.message ?? '');
  return result.boat;
}

/** A small seeded story of edits, undo and drags, as a hand at the board would make them. */
class Story {
  readonly session: Session;
  private readonly undo: (readonly Patch[])[] = [];
  private seq = 0;

  constructor(
    boat: Boat,
    private readonly random: () => number,
  ) {
    this.session = new Session(boat);
  }

  tell(acts: number): void {
    for (let act = 0; act < acts; act++) {
      const dice = this.random();
      if (dice < 0.35) this.drag();
      else if (dice < 0.5 && this.undo.length > 0) this.session.edit(this.undo.pop() ?? []);
      else if (dice < 0.6) this.session.settled();
      else this.edit(this.recipe());
    }
  }

  private pose() {
    const yaw = [0, 90, 180, 30][Math.floor(this.random() * 4)] ?? 0;
    const at = [0.3 + 2.4 * this.random(), -0.3 + 0.6 * this.random(), -0.2 + 0.3 * this.random()] as const;
    return { at, yawDeg: yaw, pitchDeg: 0, rollDeg: 0 };
  }

  private part(): string {
    return PARTS[Math.floor(this.random() * PARTS.length)] ?? 'pump';
  }

  private drag(): void {
    const part = this.part();
    const moves = 1 + Math.floor(this.random() * 3);
    for (let move = 0; move < moves; move++) {
      this.session.whatIf({ seq: ++this.seq, places: { [part]: this.pose() } });
      const steps = Math.floor(this.random() * 6);
      for (let step = 0; step < steps; step++) this.session.step(200);
    }
    if (this.random() < 0.5) this.session.endWhatIf();
  }

  private recipe(): BoatRecipe {
    const dice = this.random();
    if (dice < 0.6) return placed('first', this.part(), this.pose());
    if (dice < 0.7) return unplaced('first', this.part());
    if (dice < 0.8) {
      const rule = (['open', 'drill', 'noDrill'] as const)[Math.floor(this.random() * 3)] ?? 'drill';
      return panelChanged({ dataId: 'middle-fore', between: ['middle', 'fore'], near: [2.0225, 0, 0] }, (record) => {
        record.rule = rule;
      });
    }
    if (dice < 0.88)
      return (boat) => {
        Object.assign(boat.lines['raw-1'] ?? {}, { kind: 'hose-suction-16' });
      };
    if (dice < 0.94)
      return (boat) => {
        boat.runStates.sailing = { name: 'Sailing', use: 'sailing', heelDeg: 12, sideDown: 'both', trimDeg: 0 };
      };
    return thingDeleted('tank');
  }

  private edit(recipe: BoatRecipe): void {
    const result = edit(this.session.boat, (boat) => void recipe(boat));
    if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
    this.undo.push(result.inverse);
    this.session.edit(result.patches);
  }
}

/** Tells stories of those seeds to sessions of a small boat: each must settle as the boat that comes of it is judged from cold. */
export function expectStoriesToSettle(first: number, count: number): void {
  const boat = readLockers();
  for (let seed = first; seed < first + count; seed++) {
    const story = new Story(boat, randomFrom(seed));
    story.tell(6);
    expect(story.session.settled(), `sequence ${seed}`).toEqual(analyze(story.session.boat));
  }
}
